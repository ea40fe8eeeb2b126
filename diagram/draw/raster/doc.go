// Package raster paints a picture into an image: the sheet on screen, frame by
// frame, and the exported PNG.
//
// It is the one place where millimetres become pixels. A [View] says how many
// pixels a millimetre is and which point of the sheet lies at the image's top
// left. Lines along an axis are filled as whole pixels, their width rounded to
// at least one; stamps, labels and other paths are drawn once into masks of
// coverage, kept by the [Painter], and tinted when copied. A stamp's origin and
// the view's are rounded to whole pixels, so that masks recur while panning
// and what touches on the sheet touches in the image to within a pixel.
//
// Errors come from Image and WritePNG alone, for a picture too large to export.
package raster
