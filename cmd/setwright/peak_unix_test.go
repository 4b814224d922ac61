//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peakMemory is the most a finished process held at once, in bytes.
func peakMemory(state *os.ProcessState) int64 {
	usage, ok := state.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" {
		return int64(usage.Maxrss) // bytes there, kilobytes elsewhere
	}
	return int64(usage.Maxrss) * 1024
}
