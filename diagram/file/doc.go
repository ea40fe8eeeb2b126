// Package file reads and writes sheets, and libraries of protectors. A sheet is
// JSON in UTF-8 with the ending ".clampline", described member by member in
// assets/clampline.schema.json.
//
// A file is one object with "format", "version", "info" and a list for each
// sort of record, those of the surge cases and of what is set aside only where there are some. Quantities
// are SI, places are millimetres on the sheet; a member that is absent is zero,
// empty or not known. Writing is deterministic to the byte: records stand in
// the order of their ids, members in a fixed order, numbers in the shortest
// form that reads back exactly.
//
// Members that the program does not know survive: those of a record in its
// Extra, with the objects they are nested in, and those of the top object and
// of "info" in Info.Extra. They never override a member that is known.
//
// Read takes nothing on trust: size, depth, grammar, names that occur twice
// and every value are checked, and a file that is refused says what is wrong,
// where, and how to mend it, in Errors. Loops of feeders and parts that
// nothing feeds are not errors of a file. Nothing here panics for what a file
// holds.
//
// A library is a file of protectors without a place, in the order in which they
// are listed; assets/library.schema.json describes it. It is read with the same
// care and written as exactly.
//
// Order of the work: guard (size, depth) -> scan (grammar) -> decode ->
// migrate (older versions) -> current (members) -> diagram.Document.Edit.
package file
