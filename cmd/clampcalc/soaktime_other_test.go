//go:build !unix

package main

import "time"

var begun = time.Now()

// used returns how long the process has run.
func used() time.Duration { return time.Since(begun) }
