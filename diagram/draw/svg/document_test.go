package svg

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram/draw"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/geom"
)

func sample() *draw.Picture {
	symbol := draw.NewPicture()
	symbol.FillStroke(draw.Circle(geom.Pt(0, 0), 3), draw.RoleCard, draw.Pen{Width: 0.4})
	symbol.Text(draw.Text{At: geom.Pt(0, 1.1), Size: 3, Bold: true, Align: draw.Center, String: "G"})
	p := draw.NewPicture()
	p.Begin("bus-1")
	for i, dash := range []draw.Dash{draw.Solid, draw.Dashed, draw.Dotted, draw.Double, draw.Hatched, draw.LongDash} {
		y := 5 * float64(i)
		p.Stroke(draw.Line(geom.Pt(0, y), geom.Pt(40.12345, y)), draw.Pen{Role: draw.RoleHeld, Width: 2, Dash: dash})
	}
	p.Begin("tag of 1")
	p.FillStroke(draw.Rectangle(geom.RectOf(geom.Pt(2, 30), geom.Pt(30, 39)), 0), draw.RoleCard, draw.Pen{Role: draw.RoleTight, Width: 0.4})
	p.Text(draw.Text{At: geom.Pt(29, 34), Size: 3, Align: draw.Right, String: "A < B & \"C\"  \x01]]>"})
	p.End()
	p.End()
	p.Begin("bus-1")
	p.Place("machine", symbol, geom.Pt(50, 10), 1, draw.RoleExceeded)
	p.End()
	return p
}

func written(t *testing.T, d Document, picture *draw.Picture) string {
	t.Helper()
	var out bytes.Buffer
	if err := d.Write(&out, picture); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestDocumentText(t *testing.T) {
	d := Document{Palette: draw.Light(), Margin: 5, Title: "Sheet <1>", Description: "Buses & feeders"}
	drawtest.Text(t, "sample.svg", written(t, d, sample()))
}

// elements reads the document and returns its elements, with what is written
// in each text.
func elements(t *testing.T, document string) (out []xml.StartElement, words []string) {
	t.Helper()
	decoder := xml.NewDecoder(strings.NewReader(document))
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return out, words
		}
		if err != nil {
			t.Fatalf("not well formed: %v\n%s", err, document)
		}
		switch token := token.(type) {
		case xml.StartElement:
			out = append(out, token)
		case xml.CharData:
			if s := strings.TrimSpace(string(token)); s != "" {
				words = append(words, s)
			}
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func TestGroupsCarryTheirIds(t *testing.T) {
	all, words := elements(t, written(t, Document{Palette: draw.Dark()}, sample()))
	var data, ids []string
	for _, e := range all {
		if e.Name.Local == "g" {
			data = append(data, attribute(e, "data-id"))
			ids = append(ids, attribute(e, "id"))
		}
	}
	if diff := cmp.Diff(data, []string{"bus-1", "tag of 1", "bus-1"}); diff != "" {
		t.Errorf("data-id (-got +want):\n%s", diff)
	}
	// An id has no spaces and stands once in a document.
	if diff := cmp.Diff(ids, []string{"bus-1", "", ""}); diff != "" {
		t.Errorf("id (-got +want):\n%s", diff)
	}
	if diff := cmp.Diff(words, []string{`A < B & "C"  ]]>`, "G"}); diff != "" {
		t.Errorf("text (-got +want):\n%s", diff)
	}
}

func TestSizeIsThePictureWithItsMargin(t *testing.T) {
	p := draw.NewPicture()
	p.Stroke(draw.Line(geom.Pt(10, 20), geom.Pt(30, 20)), draw.Pen{Width: 2})
	all, _ := elements(t, written(t, Document{Margin: 5}, p))
	for name, want := range map[string]string{"width": "32mm", "height": "12mm", "viewBox": "4 14 32 12"} {
		if got := attribute(all[0], name); got != want {
			t.Errorf("%s: got %s, want %s", name, got, want)
		}
	}
}

// A length is rounded to a thousandth of a millimetre, and what rounds to nothing
// has no sign.
func TestNumber(t *testing.T) {
	for v, want := range map[float64]string{0: "0", -0.0004: "0", 0.0004: "0", -0.0006: "-0.001", 12.3456: "12.346", -12.5: "-12.5", 1e6: "1000000"} {
		if got := number(v); got != want {
			t.Errorf("%g: got %s, want %s", v, got, want)
		}
	}
}

// Paper that is seen through altogether is not drawn; any other fills the document.
func TestPaper(t *testing.T) {
	for alpha, want := range map[uint8]string{0: "", 1: "0.004", 255: ""} {
		palette := draw.Light()
		palette[draw.RolePaper].A = alpha
		all, _ := elements(t, written(t, Document{Palette: palette, Margin: 5}, draw.NewPicture()))
		if got := len(all) == 2; got != (alpha > 0) {
			t.Errorf("alpha %d: got %d elements", alpha, len(all))
			continue
		}
		if alpha > 0 && (attribute(all[1], "width") != "10" || attribute(all[1], "fill-opacity") != want) {
			t.Errorf("alpha %d: got %+v", alpha, all[1])
		}
	}
}

func TestEmptyPicture(t *testing.T) {
	all, _ := elements(t, written(t, Document{Palette: draw.Light(), Margin: 5}, draw.NewPicture()))
	if got := attribute(all[0], "viewBox"); got != "-5 -5 10 10" {
		t.Errorf("viewBox: got %s", got)
	}
}

func TestTranslucentColour(t *testing.T) {
	palette := draw.Light()
	palette[draw.RoleAccentSoft].A = 51
	p := draw.NewPicture()
	p.Fill(draw.Circle(geom.Pt(0, 0), 3), draw.RoleAccentSoft)
	if got := written(t, Document{Palette: palette}, p); !strings.Contains(got, `fill-opacity="0.2"`) {
		t.Errorf("no opacity of 0.2 in\n%s", got)
	}
}

// FuzzWrite: whatever a name holds, the document is well formed and says it.
func FuzzWrite(f *testing.F) {
	for _, s := range []string{"Main", "<script>", "a\x00\xff\ufffe", "\"'&", "]]>", "\u202e", "\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p := draw.NewPicture()
		p.Begin(s)
		p.Text(draw.Text{Size: 3, String: s})
		p.Stroke(draw.Line(geom.Pt(0, 0), geom.Pt(1, 0)), draw.Pen{Width: 1})
		p.End()
		elements(t, written(t, Document{Palette: draw.Light(), Title: s, Description: s}, p))
	})
}

// broken is a full disk.
type broken struct{}

var errFull = errors.New("no space left")

func (broken) Write([]byte) (int, error) { return 0, errFull }

func TestWriteReportsTheWritersError(t *testing.T) {
	if err := (Document{Palette: draw.Light(), Margin: 5}).Write(broken{}, sample()); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

// An image is in the document itself, as what it is.
func TestImage(t *testing.T) {
	for data, kind := range map[string]string{"\x89PNG\r\n": "image/png", "\xff\xd8\xff": "image/jpeg"} {
		p := draw.NewPicture()
		p.Image(draw.Image{Data: data, Box: geom.RectOf(geom.Pt(1, 2), geom.Pt(5, 4))})
		var out bytes.Buffer
		if err := (Document{Palette: draw.Light()}).Write(&out, p); err != nil {
			t.Fatal(err)
		}
		want := `<image x="1" y="2" width="4" height="2" preserveAspectRatio="none" href="data:` + kind + `;base64,` + base64.StdEncoding.EncodeToString([]byte(data)) + `"/>`
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %s in\n%s", want, out.String())
		}
	}
}
