package reset

// aligned pairs things of two sequences so that the pairs are worth the most
// together and none crosses another; what is worth nothing, or less, is not
// paired. Pairs are given by place in old and new, in order.
func aligned[T any](old, new []T, worth func(o, n T) int64) [][2]int {
	if len(old) == 0 || len(new) == 0 {
		return nil
	}
	// best[i*wide+k] is what the old from the i-th on and the new from the k-th on
	// are worth.
	wide := len(new) + 1
	best := make([]int64, (len(old)+1)*wide)
	for i := len(old) - 1; i >= 0; i-- {
		for k := len(new) - 1; k >= 0; k-- {
			v := max(best[(i+1)*wide+k], best[i*wide+k+1])
			if w := worth(old[i], new[k]); w > 0 {
				v = max(v, w+best[(i+1)*wide+k+1])
			}
			best[i*wide+k] = v
		}
	}
	var pairs [][2]int
	for i, k := 0, 0; i < len(old) && k < len(new); {
		switch best[i*wide+k] {
		case best[(i+1)*wide+k]:
			i++
		case best[i*wide+k+1]:
			k++
		default:
			pairs = append(pairs, [2]int{i, k})
			i, k = i+1, k+1
		}
	}
	return pairs
}
