// removed when the room has its own sources
