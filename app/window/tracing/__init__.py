"""Card patterns from a picture: how does a photograph or scan become pieces under a person's eyes?"""
