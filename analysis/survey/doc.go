// Package survey makes the sheets for the survey of a building before the work:
// a page to fill in for each panel and switchboard, filled in already with what
// is known, and the same as a table that comes back from a spreadsheet.
//
// A sheet asks for fields of the records of a board, of the transformer that feeds it,
// of the feeders, loads and supply at it, and of the protectors on it, those of the
// first plan alone. Each of the six is a form, a list of columns, which
// the page and the table are both made from; the tables stand below each other in one
// file. What a sheet says comes from two places, and it says which: the record, and,
// where that is silent, the drawing (what arrives at the board by the traced
// topology, the fault current by calculation). A table carries the record alone in
// the columns that are read again; a blank cell leaves a value as it is, a lone dash
// clears it. So a table that comes back unaltered changes nothing.
//
// ReadCSV never changes the document. It lists what would change, what could not
// be read and why, and Review.Apply makes the changes in one transaction.
//
// Quantities are SI inside and in the units of the convention on paper and in
// the table; any unit of the dimension is read. Lengths of pages are
// millimetres. Nothing here panics for any table or document.
package survey
