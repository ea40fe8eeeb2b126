package parts

import (
	"image"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/edit"
	"clampline/diagram/edit/edittest"
)

func TestItemsCoverWhatCanBePlaced(t *testing.T) {
	var got []string
	captions := map[string]bool{}
	for _, item := range Items() {
		got = append(got, item.Name)
		if _, ok := edittest.Find(item.Name); !ok {
			t.Errorf("there is no command %q", item.Name)
		}
		if item.Caption == "" || captions[item.Caption] || item.Picture.Bounds().IsEmpty() {
			t.Errorf("%q has the caption %q and the picture %v", item.Name, item.Caption, item.Picture.Bounds())
		}
		captions[item.Caption] = true
	}
	want := []string{"connect", "attach protector"}
	for _, kind := range diagram.Kinds() {
		want = append(want, "place "+string(kind))
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Every command of the menu of places has its tile.
func TestEveryPlaceCommandHasATile(t *testing.T) {
	for _, c := range edit.Commands() {
		if c.Menu == edit.MenuPlace && !slices.ContainsFunc(Items(), func(i Item) bool { return i.Name == c.Name }) {
			t.Errorf("the command %q has no tile", c.Name)
		}
	}
}

// log notes what the strip asks for.
type log struct{ lines []string }

func (l *log) hands() Hands {
	return Hands{
		Take:  func(command string) { l.lines = append(l.lines, "take "+command) },
		Lift:  func(command string) { l.lines = append(l.lines, "lift "+command) },
		Carry: func(at fyne.Position) { l.lines = append(l.lines, "carry "+place(at)) },
		Drop:  func(at fyne.Position) { l.lines = append(l.lines, "drop "+place(at)) },
	}
}

func place(at fyne.Position) string {
	if at.X < 100 {
		return "near"
	}
	return "far"
}

func newStrip(t *testing.T, l *log) *Strip {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.Theme{})
	s := New(draw.Light(), l.hands())
	w := test.NewWindow(s.Object())
	w.Resize(fyne.NewSize(100, 600))
	return s
}

func (s *Strip) tile(t *testing.T, caption string) *tile {
	t.Helper()
	for _, tile := range s.tiles {
		if tile.item.Caption == caption {
			return tile
		}
	}
	t.Fatalf("no tile is called %q", caption)
	return nil
}

func TestTapTakesUp(t *testing.T) {
	for _, item := range Items() {
		l := &log{}
		test.Tap(newStrip(t, l).tile(t, item.Caption))
		if want := []string{"take " + item.Name}; !slices.Equal(l.lines, want) {
			t.Errorf("got %q, want %q", l.lines, want)
		}
	}
}

func TestDragCarriesAndDrops(t *testing.T) {
	l := &log{}
	panel := newStrip(t, l).tile(t, "Panel")
	drag := func(x float32) {
		panel.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(x, 50)}})
	}
	drag(50)
	drag(300)
	panel.DragEnd()
	panel.DragEnd() // as after a drag that never began
	drag(60)
	panel.DragEnd()
	want := "lift place panel, carry near, carry far, drop far, lift place panel, carry near, drop near"
	if got := strings.Join(l.lines, ", "); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// ground returns the frame and the colour of the tile.
func (t *tile) ground() *canvas.Rectangle { return test.WidgetRenderer(t).(*tileRenderer).ground }

func TestArmedTileIsMarked(t *testing.T) {
	s := newStrip(t, &log{})
	plain, marked := theme.Color(look.ColorHair), theme.Color(theme.ColorNamePrimary)
	for _, armed := range []string{"place panel", "connect", "", "place load"} {
		s.Show(armed)
		for _, tile := range s.tiles {
			want := plain
			if tile.item.Name == armed {
				want = marked
			}
			if got := tile.ground().StrokeColor; got != want {
				t.Errorf("with %q taken up, %q has a frame of %v, want %v", armed, tile.item.Name, got, want)
			}
		}
	}
}

func TestHoveredTileLightsUp(t *testing.T) {
	s := newStrip(t, &log{})
	panel := s.tile(t, "Panel")
	before := panel.ground().StrokeColor
	panel.MouseIn(nil)
	if panel.ground().StrokeColor == before {
		t.Error("it does not light up")
	}
	panel.MouseOut()
	if panel.ground().StrokeColor != before {
		t.Error("it stays lit")
	}
}

// The symbol lies within the tile, in every colour and at every density.
func TestSymbolLiesWithinItsTile(t *testing.T) {
	s := newStrip(t, &log{})
	for _, palette := range []draw.Palette{draw.Light(), draw.Dark()} {
		s.SetPalette(palette)
		for _, tile := range s.tiles {
			for _, ratio := range []int{1, 2} {
				picture := tile.paint(ratio*(tileWidth-8), ratio*iconHeight).(*image.RGBA)
				inked, onEdge := 0, 0
				for y := range picture.Rect.Dy() {
					for x := range picture.Rect.Dx() {
						if picture.RGBAAt(x, y).A == 0 {
							continue
						}
						inked++
						if x == 0 || y == 0 || x == picture.Rect.Dx()-1 || y == picture.Rect.Dy()-1 {
							onEdge++
						}
					}
				}
				if inked < 20 || onEdge > 0 {
					t.Errorf("%s at %d px to the unit: %d px inked, %d of them on the edge", tile.item.Caption, ratio, inked, onEdge)
				}
			}
		}
	}
	s.tiles[0].paint(0, 0)
}

func TestPaletteChangesTheSymbols(t *testing.T) {
	s := newStrip(t, &log{})
	panel := s.tile(t, "Panel")
	light := panel.paint(68, 30).(*image.RGBA)
	s.SetPalette(draw.Dark())
	if dark := panel.paint(68, 30).(*image.RGBA); slices.Equal(light.Pix, dark.Pix) {
		t.Error("the symbol keeps its colours")
	}
}
