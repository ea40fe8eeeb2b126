package assets

import _ "embed"

//go:embed demo/tern-quay.clampline
var ternQuay string

//go:embed demo/fell-farm.clampline
var fellFarm string

//go:embed demo/saltmarsh.clampline
var saltmarsh string

// Demo is a sheet of an invented building.
type Demo struct {
	Title string
	Text  string // as in a file
}

// Demos returns the demo sheets, the main one first.
func Demos() []Demo {
	return []Demo{
		{"Tern Quay Marine Laboratory: 480Y/277 V with 208Y/120 V laboratories", ternQuay},
		{"Fell Farm Dairy: 120/240 V split phase with a long feeder", fellFarm},
		{"Saltmarsh Clinic: 400/230 V TN-S with an outbuilding on TT", saltmarsh},
	}
}
