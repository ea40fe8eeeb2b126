package pdf

import (
	"bytes"
	"image/color"
	"strings"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

// readable returns what is drawn on a page, its letters without the zero bytes of
// their code.
func readable(t *testing.T, file []byte, page int) string {
	t.Helper()
	return strings.ReplaceAll(contents(t, file)[page], "\x00", "")
}

// everything has each kind of item once: fills, strokes, a curve, a closed path,
// text in both weights, something translucent and something so fine that its
// dashes would round to nothing.
func everything() *draw.Picture {
	p := draw.NewPicture()
	p.FillStroke(draw.Rectangle(geom.RectOf(geom.Pt(10, 10), geom.Pt(60, 30)), 3), draw.RoleCard, draw.Pen{Role: draw.RoleHeld, Width: 0.5})
	p.Fill(draw.Polygon(geom.Pt(10, 40), geom.Pt(20, 40), geom.Pt(15, 50)), draw.RoleAccentSoft)
	p.Stroke(draw.Line(geom.Pt(30, 40), geom.Pt(60, 40)), draw.Pen{Role: draw.RoleTight, Width: 1, Dash: draw.LongDash})
	p.Stroke(draw.Line(geom.Pt(30, 45), geom.Pt(60, 45)), draw.Pen{Role: draw.RoleAccentSoft, Width: 1, Dash: draw.Double})
	p.Text(draw.Text{At: geom.Pt(12, 20), Size: 4, Bold: true, String: "Main"})
	p.Text(draw.Text{At: geom.Pt(58, 26), Size: 3, Align: draw.Right, Role: draw.RoleFaint, String: "480Y/277"})
	return p
}

// What stands on a page, in the operators of PDF (ISO 32000-1:2008, annex A):
// points from the left bottom corner. 10 mm are 28.35 points; A4 is 841.89 high.
func TestPageText(t *testing.T) {
	palette := draw.Dark()
	palette[draw.RoleAccentSoft].A = 51
	drawtest.Text(t, "page.txt", readable(t, written(t, Pages(A4, everything()), Options{Palette: palette}), 0))
}

// Within the basic plane of Unicode a letter is written as it is, beyond it not at
// all: the library takes two bytes a letter.
func TestLettersOfThePage(t *testing.T) {
	p := draw.NewPicture()
	p.Text(draw.Text{At: geom.Pt(9, 9), Size: 4, String: "a\uffee\U00010000\U0001d11eb"})
	page := contents(t, written(t, Pages(A4, p), Options{}))[0]
	if want := "(" + encoded("a\uffee\ufffd\ufffdb") + ") Tj"; !strings.Contains(page, want) {
		t.Errorf("the page lacks %q:\n%q", want, page)
	}
}

// Only paper of a colour of its own is painted.
func TestPaper(t *testing.T) {
	for name, row := range map[string]struct {
		paper color.NRGBA
		want  bool
	}{
		"white": {color.NRGBA{255, 255, 255, 255}, false}, "none": {color.NRGBA{}, false},
		"cream": {color.NRGBA{251, 250, 246, 255}, true}, "nearly white": {color.NRGBA{255, 255, 254, 255}, true},
		"yellow": {color.NRGBA{255, 255, 0, 255}, true}, "red of a kind": {color.NRGBA{254, 255, 255, 255}, true},
	} {
		palette := draw.Light()
		palette[draw.RolePaper] = row.paper
		page := readable(t, written(t, Pages(A4, everything()), Options{Palette: palette}), 0)
		if got := strings.Contains(page, "0.00 841.89 595.28 -841.89 re f"); got != row.want {
			t.Errorf("%s: painted %v, want %v\n%s", name, got, row.want, page)
		}
	}
}

// The least and the largest paper.
func TestSizesOfPages(t *testing.T) {
	for paper, want := range map[geom.Point]string{ // in points; none where it is refused
		geom.Pt(1, 1): "2.83 2.83", geom.Pt(5080, 5080): "14400.00 14400.00", geom.Pt(5080.1, 5000): "", geom.Pt(100, 5081): "", geom.Pt(100, -1): "", {}: "",
	} {
		var out strings.Builder
		err := Write(&out, Pages(paper, everything()), Options{})
		got := ""
		if err == nil {
			got = strings.Join(boxes([]byte(out.String())), "; ")
		}
		if got != want {
			t.Errorf("paper %v: %q (%v), want %q", paper, got, err, want)
		}
	}
}

// A bookmark names a place of its page; nothing in it acts on what shows it.
func TestBookmarks(t *testing.T) {
	pages := Pages(A4, everything(), everything())
	pages[1].Bookmarks = []Bookmark{{Text: "Größe\u202e", Y: 97}}
	file := written(t, pages, Options{})
	for _, want := range []string{"/Title (\xfe\xff" + encoded("Größe\\u202e") + ")", "/Dest [5 0 R /XYZ 0 566.93 null]", "/PageMode /UseOutlines"} {
		if !bytes.Contains(file, []byte(want)) {
			t.Errorf("the file lacks %q", want)
		}
	}
}
