// Package edittest drives an editor as a hand would: it presses, drags, clicks
// and types at places on the sheet. Only tests import it.
//
// After each event the driver checks that the document is valid and the status
// is one line, and fails the test where they are not.
package edittest
