// Package assess runs the whole analysis of one plan on a snapshot of a
// document, by either basis. Run, the hand rule, keeps nothing between calls
// and is safe for use by several goroutines, each with a snapshot of its own or
// all with the same one; an Engine, for the transient, keeps the protectors
// that it has calibrated and serves one goroutine at a time.
package assess
