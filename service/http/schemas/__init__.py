"""What requests must look like, and what answers do: marshmallow schemas, which the API description is made of."""
