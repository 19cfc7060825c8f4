"""The schemas, one file a step; what is released is never changed, only followed by another."""
