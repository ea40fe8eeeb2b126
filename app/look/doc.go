// Package look is how the window looks: its theme in light and dark, its sizes
// and its fonts. Other packages of the window name a colour by its role and a
// length by its name, never by a value.
package look
