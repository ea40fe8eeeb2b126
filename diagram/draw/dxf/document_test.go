package dxf

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

const odd = `Größe (½) 50 % %%c ^x \ Ω → mm²`

func sample() *draw.Picture {
	symbol := draw.NewPicture()
	symbol.FillStroke(draw.Circle(geom.Pt(0, 0), 3), draw.RoleCard, draw.Pen{Width: 0.4})
	symbol.Text(draw.Text{At: geom.Pt(0, 1.1), Size: 3, Bold: true, Align: draw.Center, String: "G"})
	p := draw.NewPicture()
	for i, dash := range []draw.Dash{draw.Solid, draw.Dashed, draw.Dotted, draw.Double, draw.Hatched, draw.LongDash} {
		p.Begin(fmt.Sprintf("feeder-%d", i))
		y := 5 * float64(i)
		p.Stroke(draw.Line(geom.Pt(0, y), geom.Pt(40, y)), draw.Pen{Role: draw.RoleHeld, Width: 2, Dash: dash})
		p.End()
	}
	p.Begin("panel-1")
	p.FillStroke(draw.Rectangle(geom.RectOf(geom.Pt(2, 30), geom.Pt(30, 39)), 2), draw.RoleTight, draw.Pen{Role: draw.RoleTight, Width: 0.4})
	p.Text(draw.Text{At: geom.Pt(29, 34), Size: 3, Align: draw.Right, String: odd})
	p.Begin("badge")
	p.Fill(draw.Polygon(geom.Pt(0, 0), geom.Pt(5, 0), geom.Pt(0, 5)), draw.RoleExceeded)
	p.End()
	p.End()
	p.Stroke(draw.Arc(geom.Pt(60, 30), 5, 0.5, 1), draw.Pen{Width: 0.3})
	p.Place("machine", symbol, geom.Pt(50, 10), 1, draw.RoleExceeded)
	return p
}

func byStem(group string) string {
	stem, _, found := strings.Cut(group, "-")
	return map[bool]string{true: stem}[found]
}

func written(t *testing.T, p *draw.Picture) string {
	t.Helper()
	var out bytes.Buffer
	if err := (Document{Palette: draw.Light(), Layer: byStem}).Write(&out, p); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// An independent reader opens the file, finds nothing to mend, and reads what was
// drawn: where, on which layer, in which colour, in which words.
func TestReadByAnother(t *testing.T) {
	python := ""
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import ezdxf").Run() == nil {
			python = name
		}
	}
	if python == "" {
		t.Skip("ezdxf is not on this machine; “go run ./cmd/dev test” installs it where Debian's packages are")
	}
	path := filepath.Join(t.TempDir(), "sheet.dxf")
	if err := os.WriteFile(path, []byte(written(t, sample())), 0o600); err != nil {
		t.Fatal(err)
	}
	const script = `
import ezdxf, sys
doc = ezdxf.readfile(sys.argv[1])
audit = doc.audit()
for e in audit.errors + audit.fixes: print("problem", e.message)
print("units", doc.units, "layers", *sorted(l.dxf.name for l in doc.layers))
for e in doc.modelspace():
    d = e.dxf
    if e.dxftype() == "TEXT":
        print("TEXT", d.layer, round(d.height, 3), d.style, d.halign, *(round(v, 2) for v in list(d.align_point if d.halign else d.insert)[:2]), e.plain_text())
    elif e.dxftype() == "LWPOLYLINE":
        print("LINE", d.layer, "%06x" % d.true_color, d.linetype, d.const_width, e.closed, *(round(v, 2) for p in e.get_points("xyb") for v in p))
    else:
        print(e.dxftype(), d.layer, "%06x" % d.true_color, [[tuple(round(c, 2) for c in v) for v in p.vertices] for p in e.paths])
`
	out, err := exec.Command(python, "-c", script, path).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	got := string(out)
	for _, want := range []string{
		"units 4 layers 0 Defpoints feeder panel text\n", // 4 is millimetres; the reader adds one for dimensions
		"LINE feeder 12ad76 BYLAYER 2.0 False 0.0 38.2 0.0 40.0 38.2 0.0\n",
		"LINE feeder 12ad76 dash-4.2-1.3 2.0 False 0.0 33.2 0.0 40.0 33.2 0.0\n",
		"TEXT text " + strings.TrimRight(fmt.Sprintf("%.3f", draw.CapHeight(3)), "0") + " Standard 2 29.0 4.2 " + strings.ReplaceAll(odd, "%%", "% %") + "\n",
		" Bold 1 49.99 27.11 G\n",
		"HATCH panel f3b310 ", "HATCH panel d46313 [[(0.0, 38.2, 0.0), (5.0, 38.2, 0.0), (0.0, 33.2, 0.0)]]",
		"LINE 0 1d2b33 BYLAYER 0.3 False 63.54 4.66 -0.41 56.46 4.66 0.0\n", // a quarter turn bulges by tan(π/8)
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the reader does not find %q in\n%s", want, got)
		}
	}
	if strings.Contains(got, "problem") {
		t.Errorf("the reader finds something wrong:\n%s", got)
	}
	if lines := strings.Count(got, "LINE feeder"); lines != 8 { // the double and the hatched line are two
		t.Errorf("%d lines of feeders, want 8", lines)
	}
}

func TestSameBytes(t *testing.T) {
	first := written(t, sample())
	if again := written(t, sample()); again != first {
		t.Error("two writings of one picture differ")
	}
	for _, sign := range []string{"NaN", "Inf", "\n-0\n"} {
		if strings.Contains(first, sign) {
			t.Errorf("the file holds %q", sign)
		}
	}
}

// Only arcs of circles become bulges: the middle of the bulge lies on the curve.
func TestArc(t *testing.T) {
	for name, row := range map[string]struct {
		from   geom.Point
		points []geom.Point
		want   float64 // 0 for no arc
	}{
		"a straight line":    {geom.Pt(0, 0), []geom.Point{geom.Pt(1, 0), geom.Pt(2, 0), geom.Pt(3, 0)}, 0},
		"an S":               {geom.Pt(0, 0), []geom.Point{geom.Pt(1, 1), geom.Pt(2, -1), geom.Pt(3, 0)}, 0},
		"a flat bow":         {geom.Pt(0, 0), []geom.Point{geom.Pt(0, 1), geom.Pt(9, 1), geom.Pt(9, 0)}, 0},
		"to where it starts": {geom.Pt(0, 0), []geom.Point{geom.Pt(1, 1), geom.Pt(2, -1), geom.Pt(0, 0)}, 0},
	} {
		if got, ok := arc(row.from, row.points); ok != (row.want != 0) {
			t.Errorf("%s: got %g, %v", name, got, ok)
		}
	}
	for sweep := 0.25; sweep <= 1; sweep += 0.25 {
		for _, sign := range []float64{1, -1} {
			c := chains(draw.Arc(geom.Pt(3, 4), 7, 0.3, sign*sweep))[0].corners
			if want := math.Tan(sign * sweep * math.Pi / 8); len(c) != 2 || math.Abs(c[0].bulge-want) > 1e-9 {
				t.Errorf("%g quarter turns: got %+v, want a bulge of %g", sign*sweep, c, want)
			}
		}
	}
}
