// Package lead finds what the leads of a protector add to its rating by the hand
// rule. A VPR includes six inches of lead; beyond them the mean of the two leads
// through which a current goes counts. An Up is that at the terminals, and each
// metre of either lead counts.
//
// All is SI: volts peak, metres. Nothing panics.
package lead
