// What Streamlit calls when an element comes onto the page, whenever its data change, and to clean up.

/** Return such an entry; `put` makes the element in the place it is given, once for as long as that stands. */
export function entry(put) {
  const standing = new WeakMap();
  return ({parentElement, data, setStateValue}) => {
    let element = standing.get(parentElement);
    if (!element) {
      element = put(parentElement);
      standing.set(parentElement, element);
    }
    element.apply(data, edits => setStateValue('edits', edits));
    return () => {
      // A call that newer data overtook is cleaned up after, too: somebody may be typing or drawing there.
      if (parentElement.isConnected) return;
      standing.delete(parentElement);
      element.dispose();
    };
  };
}
