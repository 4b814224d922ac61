package list

// InWalkingOrder compares two pick lines, of whatever units, by where the walk
// through the stockroom meets them: it is below zero if that is a first.
func InWalkingOrder(a, b PickLine) int { return compare(&a, &b) }
