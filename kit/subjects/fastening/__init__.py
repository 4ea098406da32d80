"""What holds boards and cloth together: screws."""
