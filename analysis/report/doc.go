// Package report makes what leaves the program for people to read: the drawing
// of a sheet with its verdicts, title, legend and cautions.
package report
