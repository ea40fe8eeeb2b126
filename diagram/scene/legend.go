package scene

import "clampline/diagram/draw"

// Legend returns the card that explains the entries, its top left corner at
// the origin; an empty picture where there are none.
func Legend(entries []LegendEntry) *draw.Picture { return draw.NewPicture() }
