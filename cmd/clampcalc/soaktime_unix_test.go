//go:build unix

package main

import (
	"syscall"
	"time"
)

// used returns what this process has had of the processors: other work on the
// machine does not count.
func used() time.Duration {
	var usage syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &usage) != nil {
		return 0
	}
	return time.Duration(usage.Utime.Nano() + usage.Stime.Nano())
}
