// Command dev is the one door to working on Clampline: it installs what the
// machine lacks, runs the editor, runs every check and measures speed.
//
//	go run ./cmd/dev run [FILE]
//	go run ./cmd/dev test [-quick]
//	go run ./cmd/dev bench [-count N] [PACKAGE...]
//	go run ./cmd/dev help
//
// It imports the standard library only and needs no C compiler, so that it
// runs on a machine that has nothing but Go. Everything it starts uses one set
// of build flags, with cgo on and no build tags: other flags would compile the
// window toolkit again, which takes minutes.
//
// It exits with 0 if all went well, with 1 if the work failed, and with 2 if
// the command line was wrong.
package main
