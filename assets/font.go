package assets

import _ "embed"

//go:embed fonts/DejaVuSans.ttf
var fontRegular []byte

//go:embed fonts/DejaVuSans-Bold.ttf
var fontBold []byte

// FontRegular returns the TrueType file of DejaVu Sans, which every drawing is
// measured and lettered with. Its licence lies beside it in fonts.
func FontRegular() []byte { return fontRegular }

// FontBold returns the TrueType file of DejaVu Sans Bold.
func FontBold() []byte { return fontBold }
