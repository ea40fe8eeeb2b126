package drawer

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// boxes returns a first object and three of 100 by 20.
func boxes() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for range 4 {
		r := canvas.NewRectangle(nil)
		r.SetMinSize(fyne.NewSize(100, 20))
		out = append(out, r)
	}
	return out
}

func TestFlow(t *testing.T) {
	for _, row := range []struct {
		name   string
		width  float32
		hidden bool // the second of three
		lines  int
	}{
		{"one line", 400, false, 1},
		{"two lines", 250, false, 2},
		{"three lines", 110, false, 3},
		{"narrower than one", 50, false, 3},
		{"one that does not show", 250, true, 1},
	} {
		objects := boxes()
		if row.hidden {
			objects[2].Hide()
		}
		flow{}.Layout(objects, fyne.NewSize(row.width, 300))
		used := float32(row.lines) * (20 + flowGap)
		first := objects[0]
		if first.Size() != fyne.NewSize(row.width, 300-used) {
			t.Errorf("%s: the first object is %v, want it %g less high", row.name, first.Size(), used)
		}
		if top := first.Position().Y; top != used {
			t.Errorf("%s: the first object begins at %g", row.name, top)
		}
		for i, o := range objects[1:] {
			if o.Visible() && (o.Position().X+100 > row.width && row.lines < 3 || o.Position().Y+20 > 300) {
				t.Errorf("%s: object %d is cut off, at %v", row.name, i+1, o.Position())
			}
		}
	}
	if got := (flow{}).MinSize(boxes()); got != fyne.NewSize(100+flowMargin, 40+flowGap) {
		t.Errorf("at least it is %v", got)
	}
}
