//go:build race

package boards

// racing tells tests that the race detector is on.
const racing = true
