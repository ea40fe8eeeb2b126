// Package assess runs the whole analysis of one plan on a snapshot of a
// document. It keeps nothing between calls and is safe for use by several
// goroutines, each with a snapshot of its own or all with the same one.
package assess
