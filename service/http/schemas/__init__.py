"""What requests must look like, and what answers do: schemas, which the API description is made of."""
