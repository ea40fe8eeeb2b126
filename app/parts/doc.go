// Package parts is the strip at the left of the window from which parts,
// feeders and protectors are placed, by a click or by dragging them onto the
// sheet.
package parts
