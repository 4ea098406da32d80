"""The whole chain from scale to cut part, predicted and measured."""
