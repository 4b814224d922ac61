//go:build !race

package solve

// racing tells tests that the race detector is on.
const racing = false
