package symbol

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

// named is a symbol with the name of its golden file.
type named struct {
	name   string
	symbol Symbol
}

func all() []named {
	wye, delta := diagram.System{Wiring: diagram.Wye}, diagram.System{Wiring: diagram.Delta}
	out := []named{
		{"supply", For(diagram.Part{Kind: diagram.Supply})},
		{"generator", For(diagram.Part{Kind: diagram.Generator})},
		{"transfer-normal", For(diagram.Part{Kind: diagram.TransferSwitch})},
		{"transfer-emergency", For(diagram.Part{
			Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{Position: diagram.ToEmergency},
		})},
		{"transformer", For(diagram.Part{Kind: diagram.Transformer})},
		{"transformer-delta-wye-screen", For(diagram.Part{
			Kind: diagram.Transformer, System: wye, Transformer: diagram.TransformerData{Primary: delta, Screen: true},
		})},
		{"transformer-high-leg", For(diagram.Part{
			Kind: diagram.Transformer, System: diagram.System{Wiring: diagram.HighLeg}, Transformer: diagram.TransformerData{Primary: wye},
		})},
		{"transformer-auto", For(diagram.Part{
			Kind: diagram.Transformer, System: wye, Transformer: diagram.TransformerData{Primary: wye, Auto: true},
		})},
		{"switchboard", For(diagram.Part{Kind: diagram.Switchboard})},
		{"switchboard-long", For(diagram.Part{Kind: diagram.Switchboard, Span: 120})},
		{"panel", For(diagram.Part{Kind: diagram.Panel})},
		{"load", For(diagram.Part{Kind: diagram.Load})},
		{"junction", For(diagram.Part{Kind: diagram.Junction})},
		{"note", For(diagram.Part{Kind: diagram.Note})},
		{"note-text", For(diagram.Part{Kind: diagram.Note, Name: "Survey", Note: "Neutral is bonded in the main switchboard only.\nSee sheet 2."})},
		{"protector", Protector()},
		{"break", Break()},
	}
	for _, kind := range []diagram.SwitchKind{"", diagram.Breaker, diagram.Fuse, diagram.Disconnect} {
		for _, open := range []bool{false, true} {
			name := fmt.Sprintf("switch-%s-%s", strings.Trim(string(kind)+"-", "-"), map[bool]string{false: "closed", true: "open"}[open])
			out = append(out, named{strings.ReplaceAll(name, "--", "-"), Switch(diagram.SwitchData{Kind: kind, Open: open})})
		}
	}
	return out
}

// String describes a symbol for its golden file, in all four turns.
func describe(s Symbol) string {
	var out strings.Builder
	fmt.Fprintf(&out, "key %q\noutline %v to %v\n", s.Key, s.Outline.Min, s.Outline.Max)
	for _, t := range s.Terminals {
		fmt.Fprintf(&out, "terminal %q at %v out %v span %g\n", t.Port, t.At, t.Out, t.Span)
	}
	for n := range 4 {
		turned := draw.NewPicture()
		turned.Append(s.Picture, geom.Turn(n))
		fmt.Fprintf(&out, "turn %d\n%s", n, turned)
	}
	return out.String()
}

func TestPictures(t *testing.T) {
	for _, s := range all() {
		t.Run(s.name, func(t *testing.T) { drawtest.Text(t, s.name+".txt", describe(s.symbol)) })
	}
}

// TestInk holds every symbol to its outline: nothing is drawn outside it but
// half the width of a line, which a picture adds at the ends as well.
func TestInk(t *testing.T) {
	for _, s := range all() {
		ink, room := s.symbol.Picture.Bounds(), s.symbol.Outline.Grow(switchboardThickness/2)
		if s.symbol.Picture.Len() > 0 && !room.Holds(ink) {
			t.Errorf("%s: ink %v lies outside %v", s.name, ink, room)
		}
	}
}

func TestTerminals(t *testing.T) {
	for _, kind := range diagram.Kinds() {
		s := For(diagram.Part{Kind: kind})
		if got, want := len(s.Terminals), len(kind.Ports()); got != want {
			t.Errorf("%s: %d terminals, want %d", kind, got, want)
		}
		for _, port := range kind.Ports() {
			terminal, ok := s.Terminal(port)
			if !ok {
				t.Errorf("%s: no terminal for port %q", kind, port)
				continue
			}
			if terminal.At != terminal.At.Snap(Pitch) {
				t.Errorf("%s: terminal %q at %v, want it on the grid of %d mm", kind, port, terminal.At, Pitch)
			}
			if !s.Outline.Contains(terminal.At) || terminal.Span > s.Outline.Max.X {
				t.Errorf("%s: terminal %q at %v lies outside %v", kind, port, terminal.At, s.Outline)
			}
			if length := terminal.Out.Length(); length != 1 && kind != diagram.Junction {
				t.Errorf("%s: terminal %q leaves by %v, want a unit step", kind, port, terminal.Out)
			}
		}
	}
}

// TestKeys pairs every two symbols: their keys are equal exactly where their
// pictures are.
func TestKeys(t *testing.T) {
	symbols := all()
	for _, primary := range append(diagram.Wirings(), "") {
		for _, auto := range []bool{false, true} {
			part := diagram.Part{Kind: diagram.Transformer, Transformer: diagram.TransformerData{Primary: diagram.System{Wiring: primary}, Auto: auto}}
			symbols = append(symbols, named{string(primary), For(part)})
		}
	}
	for i, a := range symbols {
		for _, b := range symbols[:i] {
			if a.symbol.Key == b.symbol.Key && a.symbol.Picture.String() != b.symbol.Picture.String() {
				t.Errorf("%s and %s share the key %q but differ", a.name, b.name, a.symbol.Key)
			}
		}
	}
}

func TestSpan(t *testing.T) {
	tests := []struct {
		name string
		part diagram.Part
		want float64
	}{
		{"usual switchboard", diagram.Part{Kind: diagram.Switchboard}, 60},
		{"usual panel", diagram.Part{Kind: diagram.Panel}, 40},
		{"usual note", diagram.Part{Kind: diagram.Note}, 40},
		{"own", diagram.Part{Kind: diagram.Panel, Span: 75}, 75},
		{"too short", diagram.Part{Kind: diagram.Panel, Span: 1}, 10},
		{"no bar", diagram.Part{Kind: diagram.Load, Span: 75}, 0},
	}
	for _, test := range tests {
		if got := Span(test.part); got != test.want {
			t.Errorf("%s: span %g mm, want %g mm", test.name, got, test.want)
		}
	}
}

// A note grows by 4 mm a line up to the sixtieth, round a margin of 2.5 mm.
func TestHeightOfANote(t *testing.T) {
	for lines, want := range map[int]float64{0: 10, 1: 10, 2: 13, 59: 241, 60: 245, 61: 245, 500: 245} {
		note := For(diagram.Part{Kind: diagram.Note, Note: strings.TrimSuffix(strings.Repeat("a\n", lines), "\n")})
		if got := note.Outline.Height(); math.Abs(got-want) > 1e-9 {
			t.Errorf("%d lines: got %g mm, want %g", lines, got, want)
		}
	}
}

func TestSwitchOfUnknownKind(t *testing.T) {
	if got, want := Switch(diagram.SwitchData{Kind: "other", Open: true}).Key, "switch/open"; got != want {
		t.Errorf("key %q, want %q", got, want)
	}
}

func TestWrap(t *testing.T) {
	wide := draw.TextWidth("mmmmm", 3, false)
	tests := []struct {
		name, text string
		width      float64
		want       []string
	}{
		{"nothing", " \n ", wide, nil},
		{"one line", "mm mm", wide + 1, []string{"mm mm"}},
		{"at a space", "mmm mmm", wide, []string{"mmm", "mmm"}},
		{"line ends", "m\n\nm", wide, []string{"m", "", "m"}},
		{"long word", "mmmmmmmmmmmm", wide, []string{"mmmmm", "mmmmm", "mm"}},
		{"no room at all", "mµ", 0, []string{"m", "µ"}},
		{"spaces run together", "  m   m ", wide, []string{"m m"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := Wrap(test.text, 3, false, test.width)
			if strings.Join(got, "|") != strings.Join(test.want, "|") {
				t.Errorf("lines %q, want %q", got, test.want)
			}
		})
	}
}

func FuzzWrap(f *testing.F) {
	f.Add("Größe µ Ω 長い words", 12.0)
	f.Add("\xc9", 0.0)
	f.Fuzz(func(t *testing.T, text string, width float64) {
		if math.IsNaN(width) {
			return
		}
		var got strings.Builder
		for _, line := range Wrap(text, 3, true, width) {
			got.WriteString(letters(line))
		}
		if want := letters(text); got.String() != want {
			t.Errorf("wrapped letters %q, want %q", got.String(), want)
		}
	})
}

// letters returns the text without spaces, broken letters as U+FFFD.
func letters(text string) string { return strings.Join(strings.Fields(string([]rune(text))), "") }
