// Package details is the form of the selection and, below it, the working of
// its voltage. Every field is written into the document as one history entry;
// a wrong entry says why beneath the field and the old value stays. In place of
// the selection it shows the surge cases of the sheet, to be picked, added,
// edited and removed.
//
// Which fields a record has is a table in a file named after the record. The
// form knows no engineering: what it shows of results is handed to it.
package details
