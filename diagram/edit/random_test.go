package edit_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
)

// hand plays gestures at random.
type hand struct {
	*edittest.Driver
	*rand.Rand
}

// place returns a place on the sheet, mostly one where something is.
func (h hand) place() (x, y float64) {
	if _, feeders, _ := h.Document().Count(); feeders > 0 && h.IntN(4) == 0 {
		return h.along(h.IntN(feeders))
	}
	if parts, _, _ := h.Document().Count(); parts > 0 && h.IntN(3) > 0 {
		skip := h.IntN(parts)
		for part := range h.Document().Parts() {
			if skip--; skip < 0 {
				return h.on(part)
			}
		}
	}
	return h.Float64()*300 - 150, h.Float64()*200 - 100
}

// on returns a place on or near a part: its middle, the end of its bus bar, or
// its terminals.
func (h hand) on(part diagram.Part) (x, y float64) {
	step := geom.Pt(float64(h.IntN(9)-4), float64(h.IntN(15)-7))
	if span := symbol.Span(part); span > 0 && h.IntN(3) == 0 {
		step = geom.Turn(part.Turn).Apply(geom.Pt(span/2, 0))
	}
	at := part.At.Add(step)
	return at.X, at.Y
}

// along returns a place on a feeder.
func (h hand) along(skip int) (x, y float64) {
	var at geom.Point
	for feeder := range h.Document().Feeders() {
		if skip--; skip < 0 {
			at, _ = h.Scene().FeederPath(feeder.ID).At(h.Float64())
			break
		}
	}
	return at.X, at.Y
}

// some selects a few parts.
func (h hand) some() {
	var ids []diagram.ID
	for part := range h.Document().Parts() {
		if h.IntN(2) == 0 {
			ids = append(ids, part.ID)
		}
	}
	h.Select(ids...)
}

func (h hand) modifiers() edit.Modifiers {
	if h.IntN(3) > 0 {
		return 0
	}
	return edit.Modifiers(h.IntN(16))
}

// step plays one gesture, now and then one that ends where it should not.
func (h hand) step() {
	h.Hold(h.modifiers())
	x, y := h.place()
	toX, toY := h.place()
	switch h.IntN(11) {
	case 0:
		h.Click(x, y)
	case 1:
		h.DoubleClick(x, y)
	case 2, 3:
		h.Drag(x, y, toX, toY)
	case 4:
		h.Press(x, y).DragTo(toX, toY)
	case 5:
		h.Hover(x, y).Release()
	case 6:
		h.PressWith(edit.Button(h.IntN(3)), x, y).DragTo(toX, toY).Release()
	case 7:
		h.Hover(x, y).Scroll(h.Float64()*50-25, h.Float64()*80-40)
	case 8, 9:
		h.command()
	case 10:
		h.some()
		h.command()
	}
	h.Overlay()
	if h.IntN(20) == 0 {
		h.Cancel()
	}
}

// command presses the keys of a command, or any key.
func (h hand) command() {
	commands := edit.Commands()
	command := commands[h.IntN(len(commands))]
	if len(command.Keys) == 0 || h.IntN(8) == 0 {
		_ = h.Paste(fmt.Sprint(h.IntN(9)), geom.Pt(0, 0)) // refused, whatever it is
		return
	}
	shortcut := command.Keys[h.IntN(len(command.Keys))]
	h.Hold(shortcut.Modifiers).Key(shortcut.Name)
}

// TestRandomGestures plays gestures at random, then takes all of them back and
// does them again. The driver checks after each event that the document is
// valid.
func TestRandomGestures(t *testing.T) {
	for seed := range uint64(40) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			rng := diagramtest.Rand(seed)
			doc := house(t)
			if seed%4 == 3 {
				doc = diagramtest.Random(rng, 6)
			}
			h := hand{edittest.New(t, doc, edit.Options{}), rng}
			first := edittest.Text(t, h.Document())
			for range 150 {
				h.step()
			}
			h.Cancel()
			redoAll(h.Driver) // what the hand itself took back last
			last, shown := edittest.Text(t, h.Document()), h.Plan()
			undoAll(h.Driver)
			if diff := cmp.Diff(first, edittest.Text(t, h.Document())); diff != "" {
				t.Fatalf("undoing all does not lead to the first document (-first +got):\n%s", diff)
			}
			if !h.IsSaved() {
				t.Error("the first document does not count as saved")
			}
			redoAll(h.Driver)
			h.SetPlan(shown) // showing another plan after the last change is none itself
			if diff := cmp.Diff(last, edittest.Text(t, h.Document())); diff != "" {
				t.Fatalf("redoing all does not lead to the last document (-last +got):\n%s", diff)
			}
		})
	}
}

func undoAll(d *edittest.Driver) {
	for d.CanUndo() {
		d.Undo()
	}
}

func redoAll(d *edittest.Driver) {
	for d.CanRedo() {
		d.Redo()
	}
}

// TestRandomGesturesDoSomething guards the test above: its hand must reach
// every sort of change.
func TestRandomGesturesDoSomething(t *testing.T) {
	seen := map[string]bool{}
	for seed := range uint64(24) {
		h := hand{edittest.New(t, house(t), edit.Options{}), diagramtest.Rand(seed)}
		for range 150 {
			h.step()
			for _, verb := range []string{"move ", "resize ", "place ", "connect ", "reconnect ", "attach ", "delete ", "rotate ", "align ", "paste ", "duplicate ", "cut "} {
				if label := h.UndoLabel(); len(label) > len(verb) && label[:len(verb)] == verb {
					seen[verb] = true
				}
			}
		}
	}
	if len(seen) < 12 {
		t.Errorf("the hand did only %v", seen)
	}
}
