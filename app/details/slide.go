package details

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"clampline/diagram/unit"
)

// slide is a length to drag, as a row without a label below the field that
// holds it. What it passes on the way is one entry of the history. A value
// beyond its range stands at its end and stays what it is until the slide is
// moved.
func slide[R any](entry string, get func(R) float64, set func(*R, float64)) row[R] {
	return row[R]{build: func(t target[R], tell func(string)) control {
		pitch, most := slideScale(t.convention)
		bar := widget.NewSlider(0, most)
		bar.Step = pitch
		reading := false // the bar follows the document, and not the other way round
		refresh := func() {
			record, _ := t.get()
			want := math.Min(get(record), most)
			if math.Abs(want-bar.Value) < pitch/2 { // where it stands already: to set it would end a drag
				return
			}
			reading = true
			bar.SetValue(want)
			reading = false
		}
		bar.OnChanged = func(v float64) {
			if !reading {
				v = math.Round(v/pitch) * pitch
				report(tell, t.drag(entry, func(r *R) { set(r, v) }))
			}
		}
		bar.OnChangeEnded = func(float64) {
			if !reading {
				t.dropped()
			}
		}
		return control{object: bar, fields: []fyne.Focusable{bar}, refresh: refresh}
	}}
}

// slideScale returns the step and the end of a length to drag, in m.
func slideScale(c unit.Convention) (pitch, most float64) {
	if c == unit.IEC {
		return 0.01, 2
	}
	return inch, 72 * inch
}

const inch = 0.0254 // m
