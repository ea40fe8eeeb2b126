// Package edit is the editor of a sheet without its window: selection, tools,
// commands, history, clipboard and view, as one state machine.
//
// An [Editor] is fed events and commands and answers with versions that say
// what has to be drawn anew. It changes the document only through one gate:
// a gesture opens a mark, computes every step from the state at the mark, and
// ends in one entry of the history or back at the mark. Undo and redo are the
// recorded changes with their sides swapped.
//
// Places on the sheet are geom.Point in millimetres; places on the screen are
// [ScreenPoint] in pixels, which the view alone turns into each other. Pixels
// are whatever the window counts in; 100 % means 96 of them to the inch.
//
// Errors say what could not be done and how to mend it; the document is then
// as it was. The package panics only where a change is made from within the
// function of another, which is a mistake of the caller. An Editor is not safe for use by several
// goroutines.
package edit
