package scene

import "clampline/diagram/unit"

// Options says how a scene is shown. The zero value shows everything in the
// North American convention, without a legend.
type Options struct {
	Convention unit.Convention // units of lengths and sizes
	Legend     bool            // the picture has the legend below the drawing
	HideTags   bool            // parts show no tag
	HideLabels bool            // feeders and protectors show no label
}
