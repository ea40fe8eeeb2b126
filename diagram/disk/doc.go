// Package disk writes whole files. What it writes goes into a new file in the
// same folder, down to the disk, and only then takes the place of the old one:
// whatever call fails, and wherever the program is killed, there is a complete
// file at the path, the old one or the new one.
//
// Everything that is asked of the operating system goes through System, so that
// a test can let each call fail in turn (package disktest). The zero Disk asks
// the real one.
//
// A file may be kept in several generations: "x.bak" is what stood at x before
// the last write, "x.bak2" what stood there before that, and so on.
//
// Lock says that a file is open. It is advisory, and the system takes it away
// from a program that ends in any way.
package disk
