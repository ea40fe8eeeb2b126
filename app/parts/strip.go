package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
	"clampline/diagram/symbol"
	"clampline/diagram/unit"
)

// Item is one thing that can be placed.
type Item struct {
	Name    string // the editor's command that takes it up
	Caption string
	Picture *draw.Picture
}

// Items returns what the strip holds, in order: the parts, then feeder and
// protector, then the note.
func Items() []Item {
	var out []Item
	for _, kind := range diagram.Kinds() {
		if kind == diagram.Note {
			out = append(out, Item{"connect", "Feeder", feederPicture()}, Item{"attach protector", "Protector", protectorPicture()})
		}
		out = append(out, Item{"place " + string(kind), unit.SentenceCase(string(kind)), partPicture(kind)})
	}
	return out
}

func partPicture(kind diagram.Kind) *draw.Picture {
	part := diagram.Part{Kind: kind}
	if kind.IsBoard() {
		part.Span = 20
	}
	return symbol.For(part).Picture
}

func protectorPicture() *draw.Picture { return symbol.Protector().Picture }

func feederPicture() *draw.Picture {
	out := draw.NewPicture()
	line := draw.Line(geom.Pt(-7, -4), geom.Pt(0, -4), geom.Pt(0, 4), geom.Pt(7, 4))
	out.Stroke(line, draw.Pen{Role: draw.RoleInk, Width: 0.7})
	return out
}

// Strip is the strip of parts. Use New.
type Strip struct {
	object *container.Scroll
	tiles  []*tile
}

// Hands are what the strip does with the person's choice.
type Hands struct {
	Take  func(command string)   // a tile was clicked
	Lift  func(command string)   // a tile begins to be dragged
	Carry func(at fyne.Position) // it is dragged over the window
	Drop  func(at fyne.Position) // and let go
}

// New returns the strip.
func New(palette draw.Palette, hands Hands) *Strip {
	s := &Strip{}
	box := container.NewVBox()
	for _, item := range Items() {
		t := newTile(item, palette, hands)
		s.tiles = append(s.tiles, t)
		box.Add(t)
	}
	s.object = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(6, 6, 6, 6), box))
	return s
}

// Object returns what to place in the window.
func (s *Strip) Object() fyne.CanvasObject { return s.object }

// Show marks the tile whose command the editor has taken up.
func (s *Strip) Show(command string) {
	for _, t := range s.tiles {
		t.setArmed(t.item.Name == command)
	}
}

// SetPalette changes the colours.
func (s *Strip) SetPalette(palette draw.Palette) {
	for _, t := range s.tiles {
		t.palette = palette
		t.Refresh()
	}
}
