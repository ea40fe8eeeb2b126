package details

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"clampline/analysis"
	"clampline/analysis/waveform"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// presetMenu lists what a new surge case may start from: nothing in particular, those
// that the sheet has when it has none of its own, or the surges that standards name, standard by standard.
func presetMenu(doc *diagram.Document, c unit.Convention, pick func(surge)) *fyne.Menu {
	blank := fyne.NewMenuItem("Blank", func() { pick(blankSurge(doc)) })
	usual := fyne.NewMenuItem("Usual, over the supply and inside", nil)
	usual.ChildMenu = fyne.NewMenu("")
	for _, s := range analysis.UsualSurges(doc) {
		usual.ChildMenu.Items = append(usual.ChildMenu.Items, fyne.NewMenuItem(unit.Terms(s.Name, c), func() {
			s.Name = freshName(doc, unit.Terms(s.Name, c))
			pick(s)
		}))
	}
	menu := fyne.NewMenu("", blank, usual, fyne.NewMenuItemSeparator())
	groups := map[string]*fyne.Menu{}
	for _, preset := range waveform.Presets() {
		standard := standardOf(preset)
		if groups[standard] == nil {
			groups[standard] = fyne.NewMenu("")
			item := fyne.NewMenuItem(standard, nil)
			item.ChildMenu = groups[standard]
			menu.Items = append(menu.Items, item)
		}
		groups[standard].Items = append(groups[standard].Items, fyne.NewMenuItem(unit.SentenceCase(unit.Terms(preset.Name, c)), func() {
			s := surgeOf(doc, preset)
			s.Name = unit.Terms(s.Name, c)
			pick(s)
		}))
	}
	return menu
}

// standardOf returns the standard of a preset without edition, table and
// remarks, except that the two of IEEE C62.41 are told apart by their year.
func standardOf(p waveform.Preset) string {
	out, _, _ := strings.Cut(p.Standard, " table")
	out, _, _ = strings.Cut(out, " (")
	out, _, _ = strings.Cut(out, ":")
	return out
}

func blankSurge(doc *diagram.Document) surge {
	name := fmt.Sprintf("Surge case %d", len(analysis.SurgesOf(doc))+1)
	return surge{Name: freshName(doc, name), Path: diagram.LinesToEarth, Wave: diagram.CombinationWave, Voltage: 6000, Current: 3000}
}

// surgeOf makes a surge case of a preset, which arrives at the supply in use.
func surgeOf(doc *diagram.Document, p waveform.Preset) surge {
	out := surge{
		Name: freshName(doc, unit.SentenceCase(p.Name)), Note: p.Standard, Path: cmp.Or(diagram.Path(p.Path), diagram.LinesToEarth),
		Wave: diagram.Wave(p.Wave), Voltage: p.Voltage, Current: p.Current,
	}
	if out.Voltage == 0 {
		out.Voltage = analysis.OpenVoltage(p.Current)
		out.Note += ". It states the current alone; the open voltage is taken as 6 kV, or as 2 Ω times the current where that is more."
	}
	return out
}

// freshName returns the name, or the name with a number where a surge case has
// it already.
func freshName(doc *diagram.Document, name string) string {
	taken := func(name string) bool {
		return slices.ContainsFunc(analysis.SurgesOf(doc), func(s surge) bool { return s.Name == name })
	}
	out := name
	for number := 2; taken(out); number++ {
		out = fmt.Sprintf("%s (%d)", name, number)
	}
	return out
}
