// Package diagram is the model of a building's one-line diagram: parts, the
// feeders between them, the protectors on them, the plans that the protectors
// belong to, and the surges that arrive.
//
// A Document holds records by id. A record is a value: it is replaced, never
// altered in place, so a snapshot costs next to nothing and undo is the same
// change with its sides swapped. All change goes through Document.Edit, which
// takes all of it or none and checks it once at the end.
//
// Units are SI (volts rms for nominal voltages, amperes, metres, square
// metres, volt-amperes, hours for labour); places on the sheet are
// millimetres. A zero number means "not known" wherever zero makes no sense
// as a value; each field says so.
//
// The package knows no drawing, no window and no engineering beyond what a
// record says of itself. It panics only for a change applied to a document
// that it does not belong to.
package diagram
