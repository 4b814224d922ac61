//go:build race

package oracle

// Racing tells tests that the race detector is on, which makes them many times
// slower.
const Racing = true
