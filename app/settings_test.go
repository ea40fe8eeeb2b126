package app

import (
	"image"
	"image/color"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// pickUnits picks a line of the list in the settings.
func pickUnits(t *testing.T, a *App, label string) {
	t.Helper()
	run(t, a, "settings")
	for _, list := range all[*picker](asked(t, a)) {
		for _, option := range list.Options {
			if strings.Contains(option, label) {
				list.SetSelected(option)
				answer(t, a, "Close")
				return
			}
		}
	}
	t.Fatalf("the settings have no line with %q", label)
}

func TestUnitsSetting(t *testing.T) {
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("panel-1")
	if _, err := a.editor.AttachTo("panel-1"); err != nil {
		t.Fatal(err)
	}
	a.refresh()
	check := func(when string, us bool) {
		t.Helper()
		if got := strings.Contains(drawn(a), " ft"); got != us {
			t.Errorf("%s: the sheet has feet: got %t, want %t", when, got, us)
		}
		if got := strings.Contains(wordsOf(a.details.Object()), " mm"); got == us {
			t.Errorf("%s: the details have millimetres: got %t, want %t", when, got, !us)
		}
		if got := strings.Contains(wordsOf(a.details.Object()), "Ground lead"); got != us {
			t.Errorf("%s: the details have a ground lead: got %t, want %t", when, got, us)
		}
		if got := strings.Contains(wordsOf(a.details.Object()), "L-PE"); got == us {
			t.Errorf("%s: the details have L-PE: got %t, want %t", when, got, !us)
		}
		a.editor.Select("feeder-2")
		a.refresh()
		if got := strings.Contains(strings.ReplaceAll(a.status.doing.Text, "\u00a0", " "), " ft"); got != us {
			t.Errorf("%s: the status line says %q", when, a.status.doing.Text)
		}
		a.editor.Select("protector-1")
		a.refresh()
	}
	check("as the supply suggests", true)
	pickUnits(t, a, "IEC")
	check("IEC", false)
	pickUnits(t, a, "North American")
	check("North American", true)

	pickUnits(t, a, "supply of the sheet")
	err := a.editor.Change("change earthing", func(tx *diagram.Tx) error {
		part, _ := tx.Part("supply-1")
		part.System.Earthing = diagram.TNS
		tx.SetPart(part)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	a.refresh()
	check("once the supply is TN-S", false)
}

func TestUnitsSettingLasts(t *testing.T) {
	a := start(t)
	pickUnits(t, a, "IEC")
	next := New(a.app, Options{Inline: true})
	next.workOn(house(t), "")
	if got := next.convention(); got != unit.IEC {
		t.Errorf("after another start: got %v, want %v", got, unit.IEC)
	}
}

// pixel returns the colour of the sheet where nothing is drawn.
func pixel(a *App) color.Color {
	picture := a.window.Canvas().Capture()
	at := image.Pt(int(on(a.editor, a.editor.View().Rect().Max).X), 0)
	corner := a.app.Driver().AbsolutePositionForObject(a.sheet)
	return picture.At(int(corner.X)+at.X-3, int(corner.Y)+3)
}

func TestThemeSwitch(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	a := start(t)
	a.workOn(house(t), "")
	a.editor.Select("panel-1")
	a.refresh()
	for _, dark := range []bool{false, true, false} {
		if dark != a.look.Dark {
			run(t, a, "dark")
		}
		theme := look.Theme{Dark: dark}
		for _, ground := range all[*look.Ground](a.window.Content()) {
			got := test.WidgetRenderer(ground).Objects()[0].(*canvas.Rectangle).FillColor
			if got != theme.Color(look.ColorBand, 0) && got != theme.Color(look.ColorCard, 0) {
				t.Errorf("dark %t: a ground is %v, want a colour of the theme", dark, got)
			}
		}
		if got, want := luminance(pixel(a)) < 0.5, dark; got != want {
			t.Errorf("dark %t: the sheet is dark: got %t", dark, got)
		}
		for _, text := range texts(a.details.Object()) {
			if luminance(text.Color) < 0.5 == dark && text.Text != "" {
				t.Errorf("dark %t: %q is written in %v", dark, text.Text, text.Color)
			}
		}
		if a.prefs.dark() != dark {
			t.Errorf("dark %t is not kept", dark)
		}
	}
	run(t, a, "dark")
	if next := New(a.app, Options{Inline: true}); !next.look.Dark {
		t.Error("another start is light again")
	}
}

func luminance(c color.Color) float64 {
	r, g, b, _ := c.RGBA()
	return (0.3*float64(r) + 0.6*float64(g) + 0.1*float64(b)) / 65535
}

func TestSettingsOfCopies(t *testing.T) {
	a := start(t)
	if a.prefs.backups() != 3 || a.prefs.copies() != 5 || a.prefs.period() != 3*time.Second {
		t.Errorf("at first: %d, %d, %v", a.prefs.backups(), a.prefs.copies(), a.prefs.period())
	}
	run(t, a, "settings")
	for _, item := range all[*widget.Form](asked(t, a))[0].Items {
		list, ok := item.Widget.(*picker)
		switch {
		case ok && item.Text == "Backups beside a sheet":
			list.SetSelected("1")
		case ok && item.Text == "Recovery copy of changes":
			list.SetSelected("every 10 s")
		case ok && item.Text == "Recovery copies kept":
			list.SetSelected("1")
		}
	}
	answer(t, a, "Close")
	if a.prefs.period() != 10*time.Second {
		t.Errorf("the period is %v", a.prefs.period())
	}
	path := saved(t, house(t), "house.clampline")
	a.OpenPath(path)
	a.KeepRecovery()
	for _, name := range []string{"One", "Two", "Three"} {
		change(t, a, name)
		a.keepCopy(nil)
		if got, _ := filepath.Glob(filepath.Join(a.copy.folder, "*.bak*")); len(got) > 0 {
			t.Errorf("more than one recovery copy: %q", got)
		}
		run(t, a, "save")
	}
	if got, _ := filepath.Glob(path + ".bak*"); len(got) != 1 {
		t.Errorf("backups: %q, want one", got)
	}
}
