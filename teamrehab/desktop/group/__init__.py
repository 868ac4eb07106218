"""A team session: attendance, minutes and effort of the whole squad in one grid."""
