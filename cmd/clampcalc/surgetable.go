package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// surgeTable writes solved surge cases for people to read.
type surgeTable struct {
	out   io.Writer
	sheet sheet
}

func (t surgeTable) write(cases []assess.Case, assumptions bool) error {
	writeTitle(t.out, t.sheet)
	fmt.Fprint(t.out, "Peak of each mode, and when it is reached, in µs after the surge begins.\n"+
		"The voltage of the mains is not added, and no insulation flashes over.\n\n")
	for _, c := range cases {
		fmt.Fprintln(t.out, wrapped(heading(t.sheet, c.Surge), tableWidth))
		t.buses(c)
		t.protectors(c)
		fmt.Fprintf(t.out, "\nenergy: the source gives out %s, most of it in its own resistance; protectors take %s; the balance is off by %.2g %%\n",
			joules(c.Delivered), joules(c.Absorbed), 100*c.Balance)
		t.halving(c)
		fmt.Fprintln(t.out)
	}
	fmt.Fprintln(t.out, "Verdicts, the worst surge case counting")
	if err := writeVerdicts(t.out, t.sheet); err != nil {
		return err
	}
	t.assumptions(cases, assumptions)
	_, err := fmt.Fprintf(t.out, "\n%s\n", wrapped(mark.Caution, tableWidth))
	return wrapFile(err)
}

// halving tells how exact the peaks are, where that was asked for.
func (t surgeTable) halving(c assess.Case) {
	if h := c.Halving; h != nil {
		fmt.Fprintf(t.out, "peaks are exact to about %.2g %%: by half the step of %.3g ns that of %s, %s, moves most, from %.1f to %.1f V\n",
			100*h.Share, 1e9*c.Step, c.Circuit.Network.Buses[h.Bus].Name, unit.ModeWord(h.Kind.String(), t.sheet.convention), h.From, h.To)
	}
}

func joules(j float64) string {
	if j >= 999.5 {
		return fmt.Sprintf("%.3g kJ", j/1e3)
	}
	return fmt.Sprintf("%.3g J", j)
}

// nameWidth is to how many characters names are filled up at most, so that the
// numbers of four modes stand beside them.
const nameWidth = 38

// column returns the width of a column of names.
func column(names []string) int {
	width := 9
	for _, name := range names {
		width = max(width, min(utf8.RuneCountInString(name), nameWidth))
	}
	return width
}

func (t surgeTable) buses(c assess.Case) {
	judgedOnes, others := placesOf(t.sheet, c)
	var names []string
	var has [diagram.ModeCount]bool
	for bus, peaks := range c.Peaks {
		names = append(names, c.Circuit.Network.Buses[bus].Name)
		for _, peak := range peaks {
			has[peak.Mode] = true
		}
	}
	width := column(names)
	rows := func(title string, buses []int) {
		if len(buses) == 0 {
			return
		}
		head := fmt.Sprintf("%-*s", width, title)
		for _, mode := range diagram.Modes() {
			if has[mode] {
				head += fmt.Sprintf("%9s %5s", unit.ModeWord(mode.String(), t.sheet.convention)+" V", "µs")
			}
		}
		fmt.Fprintf(t.out, "\n%s\n", head)
		for _, bus := range buses {
			fmt.Fprintf(t.out, "%-*s%s\n", width, names[bus], strings.TrimRight(peakCells(c.Peaks[bus], has), " "))
		}
	}
	rows("BUS", judgedOnes)
	rows("ELSEWHERE", others)
}

// peakCells writes the peaks of the modes that have a column.
func peakCells(peaks []analysis.Peak, has [diagram.ModeCount]bool) string {
	var out strings.Builder
	for _, mode := range diagram.Modes() {
		at := slices.IndexFunc(peaks, func(p analysis.Peak) bool { return p.Mode == mode })
		switch {
		case at >= 0:
			fmt.Fprintf(&out, "%9.0f %5.1f", peaks[at].Volts, 1e6*peaks[at].At)
		case has[mode]:
			fmt.Fprintf(&out, "%9s %5s", "-", "")
		}
	}
	return out.String()
}

func (t surgeTable) protectors(c assess.Case) {
	if len(c.Circuit.Protectors) == 0 {
		fmt.Fprint(t.out, "\nno protector in its reach\n")
		return
	}
	var names []string
	for _, p := range c.Circuit.Protectors {
		names = append(names, t.sheet.doc.NameOf(p.ID))
	}
	width := column(names)
	fmt.Fprintf(t.out, "\n%-*s  %-5s%10s%7s%12s%10s\n", width, "PROTECTOR", "MODE", "PEAK A", "µs", "CHARGE mC", "ENERGY J")
	fmt.Fprintln(t.out, "  (each figure of the line on which it is greatest)")
	for i, p := range c.Circuit.Protectors {
		if idle(c.Protectors[p.ID]) {
			fmt.Fprintf(t.out, "%-*s  carries less than %g A\n", width, names[i], idleAmps)
			continue
		}
		for _, d := range c.Protectors[p.ID] {
			fmt.Fprintf(t.out, "%-*s  %-5s%10.0f%7.1f%12.2f%10.2f\n", width, names[i], unit.ModeWord(d.Mode.String(), t.sheet.convention),
				d.Amps, 1e6*d.At, 1e3*d.Charge, d.Energy)
		}
	}
}

// idleAmps is the current below which a protector does not take part.
const idleAmps = 1.0

func idle(duties []analysis.Duty) bool {
	return !slices.ContainsFunc(duties, func(d analysis.Duty) bool { return d.Amps >= idleAmps })
}

// assumptions writes what was taken so in any case, or how much that is.
func (t surgeTable) assumptions(cases []assess.Case, list bool) {
	var lines []string
	for _, c := range cases {
		for _, line := range assumed(t.sheet, c.Assumptions) {
			if !slices.Contains(lines, line) {
				lines = append(lines, line)
			}
		}
	}
	switch {
	case len(lines) == 0:
	case list:
		fmt.Fprintf(t.out, "\n%s\n", takenSo)
		for _, line := range lines {
			fmt.Fprintln(t.out, strings.ReplaceAll(wrapped("- "+line, tableWidth-2), "\n", "\n  "))
		}
	default:
		fmt.Fprintf(t.out, "\n%s; --assumptions lists them\n", plural(len(lines), "thing was taken so, since the sheet does not say", "things were taken so, since the sheet does not say"))
	}
}
