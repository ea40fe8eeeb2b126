package app

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"clampline/analysis"
	"clampline/app/drawer"
	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// units is the setting of units and words.
type units string

const (
	unitsBySheet units = "sheet" // as the earthing of the supply suggests
	unitsUS      units = "us"
	unitsIEC     units = "iec"
)

const (
	keyUnits   = "units"
	keyDark    = "dark"
	keyRecent  = "recent"
	keyDrawer  = "drawer"
	keyView    = "drawer view"
	keyLegend  = "legend"
	keyHidden  = "findings hidden"
	keyGroup   = "findings group"
	keyBasis   = "basis"
	keyWidth   = "width"
	keyHeight  = "height"
	keyBackups = "backups"
	keyCopies  = "recovery copies"
	keyPeriod  = "recovery seconds"
	mostRecent = 10
)

// prefs are the settings that last from one start to the next.
type prefs struct{ store fyne.Preferences }

func (p prefs) units() units {
	return units(p.store.StringWithFallback(keyUnits, string(unitsBySheet)))
}
func (p prefs) setUnits(u units)    { p.store.SetString(keyUnits, string(u)) }
func (p prefs) dark() bool          { return p.store.Bool(keyDark) }
func (p prefs) setDark(dark bool)   { p.store.SetBool(keyDark, dark) }
func (p prefs) drawer() bool        { return p.store.BoolWithFallback(keyDrawer, true) }
func (p prefs) setDrawer(open bool) { p.store.SetBool(keyDrawer, open) }
func (p prefs) legend() bool        { return p.store.BoolWithFallback(keyLegend, true) }
func (p prefs) setLegend(on bool)   { p.store.SetBool(keyLegend, on) }
func (p prefs) view() string        { return p.store.String(keyView) }
func (p prefs) setView(name string) { p.store.SetString(keyView, name) }
func (p prefs) recent() []string    { return p.store.StringList(keyRecent) }
func (p prefs) clearRecent()        { p.store.SetStringList(keyRecent, nil) }
func (p prefs) setBasis(b analysis.Basis) {
	p.store.SetString(keyBasis, string(b))
}

// backups is how many generations of a sheet are kept beside it.
func (p prefs) backups() int { return p.store.IntWithFallback(keyBackups, file.UsualBackups) }

// copies is how many generations of a recovery copy are kept.
func (p prefs) copies() int { return max(1, p.store.IntWithFallback(keyCopies, file.UsualGenerations)) }

// period is how often a changed sheet is copied.
func (p prefs) period() time.Duration {
	return time.Duration(max(1, p.store.IntWithFallback(keyPeriod, usualPeriod))) * time.Second
}

// basis is the one that was picked last.
func (p prefs) basis() analysis.Basis {
	if p.store.String(keyBasis) == string(analysis.Transient) {
		return analysis.Transient
	}
	return analysis.HandRule
}

// findings is which severities are listed, and how.
func (p prefs) findings() drawer.Settings {
	out := drawer.Settings{Grouping: drawer.Grouping(p.store.String(keyGroup))}
	hidden := p.store.StringList(keyHidden)
	for s := range out.Hide {
		out.Hide[s] = slices.Contains(hidden, analysis.Severity(s).String())
	}
	return out
}

func (p prefs) setFindings(s drawer.Settings) {
	var hidden []string
	for severity, hide := range s.Hide {
		if hide {
			hidden = append(hidden, analysis.Severity(severity).String())
		}
	}
	p.store.SetStringList(keyHidden, hidden)
	p.store.SetString(keyGroup, string(s.Grouping))
}

func (p prefs) size() fyne.Size {
	return fyne.NewSize(
		float32(p.store.FloatWithFallback(keyWidth, 1360)),
		float32(p.store.FloatWithFallback(keyHeight, 820)))
}

func (p prefs) setSize(s fyne.Size) {
	p.store.SetFloat(keyWidth, float64(s.Width))
	p.store.SetFloat(keyHeight, float64(s.Height))
}

// addRecent puts the path at the head of the recent files.
func (p prefs) addRecent(path string) {
	list := slices.Insert(p.recentBut(path), 0, path)
	p.store.SetStringList(keyRecent, list[:min(len(list), mostRecent)])
}

// dropRecent takes the path off the recent files.
func (p prefs) dropRecent(path string) { p.store.SetStringList(keyRecent, p.recentBut(path)) }

func (p prefs) recentBut(path string) []string {
	return slices.DeleteFunc(slices.Clone(p.recent()), func(old string) bool { return old == path })
}

// convention returns the units and words for the sheet.
func (p prefs) convention(doc *diagram.Document) unit.Convention {
	switch p.units() {
	case unitsUS:
		return unit.NorthAmerican
	case unitsIEC:
		return unit.IEC
	}
	if doc.UsesIEC() {
		return unit.IEC
	}
	return unit.NorthAmerican
}
