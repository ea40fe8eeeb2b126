// Package assets holds the files that are built into the programs.
//
// The bytes it hands out are shared and read only: a caller that wants to
// change them copies them first. Nothing here fails, because the files are
// part of the program.
package assets
