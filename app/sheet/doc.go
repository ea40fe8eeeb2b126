// Package sheet is the middle of the window: the drawing, and the pointer and
// keys on it. It paints what the editor shows and hands every event to the
// editor; it decides nothing.
package sheet
