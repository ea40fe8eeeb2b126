// Package compare puts the plans of one sheet side by side, tells what each
// protector of a plan buys, and adds up what the work costs. It solves by package
// assess what is not at hand yet, and each plan once.
//
// Voltages are in volts peak, labour is in hours, and money is in the currency of
// the sheet. A document that is handed over is a snapshot, or else nobody changes
// it meanwhile.
package compare
