// Package record tells what was built of a plan: what hangs where since when, its leads
// and the voltage at its bus as planned and as built, and when to look at it again.
//
// The record of a plan is a plan of its own, a copy whose leads are those that were
// built (diagram.Plan.Of), so that every figure of it is one of the building as it is.
// Days are by ISO 8601. Nothing panics for any document.
package record
