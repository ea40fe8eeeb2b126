// Package app is the window: it joins the sheet, the strip of parts, the
// details and the findings to one editor, opens and saves files, keeps a
// recovery copy, and has each state of the sheet judged in the background, by
// the hand rule or by the transient.
//
// Everything runs on the toolkit's own goroutine except two things: the judging
// of a snapshot (judge.go) and the writing of the recovery copy (jobs.go).
package app
