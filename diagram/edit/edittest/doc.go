// Package edittest drives an editor as a hand would: it presses, drags, clicks
// and types at places on the sheet. Only tests import it.
//
// After each event the driver checks that the document is valid, and fails
// the test where it is not.
package edittest
