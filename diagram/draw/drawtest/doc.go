// Package drawtest compares what a test made with what was made before, kept
// under the test's testdata. Only tests import it.
//
// With UPDATE=1 in the environment a comparison writes what it got in place of
// what it would have compared with. Where they differ it leaves what it got
// under testdata/failed, to be looked at.
package drawtest
