//go:build race

package bars

// racing tells tests that the race detector is on.
const racing = true
