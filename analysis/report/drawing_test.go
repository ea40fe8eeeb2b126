package report

import (
	"bytes"
	"context"
	"image/png"
	"strings"
	"testing"

	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

func drawing(t *testing.T) Drawing {
	t.Helper()
	doc := diagramtest.Building(20)
	result, err := assess.Run(context.Background(), doc, diagram.FirstPlan)
	if err != nil {
		t.Fatal(err)
	}
	return Drawing{Document: doc, Result: result, Palette: Paper(), DotsPerInch: 60}
}

// Every drawing that leaves the program bears its title, the legend and the
// cautions.
func TestDrawingSaysWhatItIs(t *testing.T) {
	var out bytes.Buffer
	d := drawing(t)
	if err := d.Write(&out, SVG); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"Sheet without a title · plan As found · hand rule", "Unreached", mark.Caution[:40]} {
		if !strings.Contains(out.String(), words) {
			t.Errorf("the drawing lacks %q", words)
		}
	}
}

func TestDrawingAsPNG(t *testing.T) {
	var out bytes.Buffer
	d := drawing(t)
	if err := d.Write(&out, PNG); err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	if r, g, b, a := picture.At(0, 0).RGBA(); r != 0xffff || g != 0xffff || b != 0xffff || a != 0xffff {
		t.Errorf("the margin is %x %x %x %x, want white paper", r, g, b, a)
	}
}

func TestFormatOf(t *testing.T) {
	for path, want := range map[string]Format{"a.png": PNG, "b.SVG": SVG, "c.jpg": "", "d": ""} {
		got, err := FormatOf(path)
		if got != want || (err != nil) != (want == "") {
			t.Errorf("%s: got %q, %v; want %q", path, got, err, want)
		}
	}
}
