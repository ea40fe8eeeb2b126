// Package analysis holds the words in which results are told — Verdict,
// Basis, Reason, Working, Finding, Level, Result — and finds what each bus
// is: its system, its transformer zone and its way back to the supply.
//
// Voltages of surges are volts peak; nominal voltages are volts rms. Lengths
// are metres. Results are plain data, made on a snapshot of the document and
// not changed afterwards; nothing here draws, asks or prints. No function
// panics for anything that a document can hold: what cannot be told is a
// finding or a verdict of Unknown with its reason.
package analysis
