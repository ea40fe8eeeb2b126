// Package details is the form of the selection, below it tables of results, and
// in the lower half the working of one figure: of a surge voltage, of a fault
// current, or of whether a supply asks for protection; buttons say which. Every
// field is written into the document as one history entry; a wrong entry says
// why beneath the field and the old value stays. In place of the selection it
// shows the surge cases of the sheet, to be picked, added, edited and removed,
// or an entry of the user's library of protectors.
//
// A number alone is in the unit that its field shows. What is unusual about it is
// marked in small letters below the label, and why an entry was not taken stands
// in a bubble above the field: neither moves a line. Sections fold, and stay so as
// long as the program runs.
//
// Which fields a record has is a table in a file named after the record; those
// that only the rules of the other practice ask for are not shown. The form
// knows no engineering: what it shows of results is handed to it, and whether a
// supply asks for protection is a matter of package rule.
package details
