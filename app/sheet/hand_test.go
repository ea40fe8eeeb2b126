package sheet

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/edit"
	"clampline/diagram/geom"
)

// hand works a sheet in the order in which the toolkit's window tells of the
// mouse. Places are mm on the sheet.
type hand struct {
	*Sheet
	t      testing.TB
	window fyne.Window
	held   fyne.KeyModifier
	clock  time.Time
}

const (
	width  = 1000
	height = 700
)

// house is a supply above a panel above a load, all at x 0.
func house(t testing.TB) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply, Name: "Grid"})
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Main", At: geom.Pt(0, 50), Span: 60})
		tx.SetPart(diagram.Part{ID: "load-1", Kind: diagram.Load, Name: "Pump", At: geom.Pt(0, 100)})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-1"}})
	})
}

func newHand(t testing.TB, doc *diagram.Document) *hand {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	h := &hand{t: t, Sheet: New(edit.New(doc, edit.Options{}), draw.Light()), clock: time.Unix(0, 0)}
	h.Modifiers = func() fyne.KeyModifier { return h.held }
	h.Now = func() time.Time { return h.clock }
	h.window = test.NewWindow(h.Sheet)
	h.window.SetPadded(false)
	h.window.Resize(fyne.NewSize(width, height))
	h.editor.ZoomFit()
	return h
}

// wait lets time pass, so that two clicks are no double click.
func (h *hand) wait() { h.clock = h.clock.Add(time.Second) }

func (h *hand) on(p geom.Point) fyne.Position {
	at := h.editor.View().ToScreen(p)
	return fyne.NewPos(float32(at.X), float32(at.Y))
}

func (h *hand) mouse(at fyne.Position, button desktop.MouseButton) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at, AbsolutePosition: at}, Button: button, Modifier: h.held}
}

func (h *hand) press(at fyne.Position, button desktop.MouseButton) {
	h.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
	h.MouseDown(h.mouse(at, button))
}

// moves tells of the way to a place, as Dragged or, for the right button, as
// MouseMoved.
func (h *hand) moves(from, to fyne.Position, button desktop.MouseButton) {
	const steps = 4
	for i := 1; i <= steps; i++ {
		share := float32(i) / steps
		at := fyne.NewPos(from.X+(to.X-from.X)*share, from.Y+(to.Y-from.Y)*share)
		if button == desktop.MouseButtonSecondary {
			h.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: button})
			continue
		}
		h.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}})
	}
}

// dragPixels drags with a button and releases it over the sheet.
func (h *hand) dragPixels(button desktop.MouseButton, from, to fyne.Position) {
	h.press(from, button)
	h.moves(from, to, button)
	h.MouseUp(h.mouse(to, button))
	if button != desktop.MouseButtonSecondary {
		h.DragEnd()
	}
}

func (h *hand) drag(from, to geom.Point) {
	h.dragPixels(desktop.MouseButtonPrimary, h.on(from), h.on(to))
}

func (h *hand) click(p geom.Point) { h.clickWith(desktop.MouseButtonPrimary, p) }

func (h *hand) clickWith(button desktop.MouseButton, p geom.Point) {
	at := h.on(p)
	h.press(at, button)
	h.MouseUp(h.mouse(at, button))
	if button == desktop.MouseButtonPrimary {
		h.Tapped(&fyne.PointEvent{Position: at})
	}
}

func (h *hand) scroll(p geom.Point, dx, dy float32) {
	ev := &fyne.ScrollEvent{Scrolled: fyne.Delta{DX: dx, DY: dy}}
	ev.Position = h.on(p)
	h.Scrolled(ev)
}

func (h *hand) key(names ...fyne.KeyName) {
	for _, name := range names {
		h.TypedKey(&fyne.KeyEvent{Name: name})
	}
}

func (h *hand) part(id diagram.ID) diagram.Part {
	h.t.Helper()
	part, ok := h.editor.Document().Part(id)
	if !ok {
		h.t.Fatalf("there is no %s", id)
	}
	return part
}

func (h *hand) focused() fyne.Focusable { return h.window.Canvas().Focused() }

// above lays the sheet out above a field.
func above(sheet, field fyne.CanvasObject) fyne.CanvasObject {
	return container.NewBorder(nil, field, nil, nil, sheet)
}
