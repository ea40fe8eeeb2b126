// Package pdf writes pictures as a PDF document, a page to each: the same
// strokes as every other painter draws, in millimetres, as lines and letters
// that stay sharp at any size. The fonts are embedded, cut down to the letters
// that are used, so that text can be searched and copied and needs nothing on
// the machine that prints it.
//
// What is written is deterministic, so two exports of one picture are equal
// byte for byte; it bears no date unless one is given. Lengths are rounded to a
// hundredth of a point. A character outside of Unicode's basic plane is written
// as the replacement character. Errors are the writer's, and those of a call
// without pages or with a paper that is none.
package pdf
