package assets

import _ "embed"

//go:embed icon.png
var icon []byte

// Icon returns the program's icon, a PNG of 256 by 256 pixels.
func Icon() []byte { return icon }
