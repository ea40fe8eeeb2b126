// Package table writes rows of one sort from one list of columns: as text for a
// screen, as CSV for a spreadsheet, as JSON for a program; and lists the columns for
// a help text. Another form is one more function over the same columns.
package table
