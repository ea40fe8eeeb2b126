package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/analysis/table"
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
		fmt.Fprintln(t.out, unit.Wrapped(heading(t.sheet, c.Surge), tableWidth))
		if c.Surge.ID == "" && c.Surge.Note != "" {
			fmt.Fprintln(t.out, unit.Wrapped("Taken from "+unit.Terms(c.Surge.Note, t.sheet.convention), tableWidth))
		}
		if err := errors.Join(t.buses(c), t.protectors(c)); err != nil {
			return wrapFile(err)
		}
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
	_, err := fmt.Fprintf(t.out, "\n%s\n", unit.Wrapped(mark.Caution, tableWidth))
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

// A name is filled up so that the numbers of four modes stand beside it.
const leastName, mostName = 9, 38

func (t surgeTable) buses(c assess.Case) error {
	judgedOnes, others := rowsOf(t.sheet, c)
	for _, part := range []struct {
		title string
		buses []busRow
	}{{"BUS", judgedOnes}, {"ELSEWHERE", others}} {
		if len(part.buses) == 0 {
			continue
		}
		fmt.Fprintln(t.out)
		if err := table.Text(t.out, t.peakColumns(slices.Concat(judgedOnes, others), part.title), part.buses, ""); err != nil {
			return err
		}
	}
	return nil
}

// peakColumns are the peaks and times of those modes that some bus of the case has.
func (t surgeTable) peakColumns(all []busRow, title string) []table.Column[busRow] {
	var has [diagram.ModeCount]bool
	longest, many := 0, false
	for _, bus := range all {
		longest = max(longest, utf8.RuneCountInString(bus.name))
		for _, peak := range bus.peaks {
			has[peak.Mode] = true
			many = many || peak.Origin != ""
		}
	}
	width := max(leastName, min(longest, mostName))
	out := []table.Column[busRow]{{Head: title, Least: width, Most: width, Cell: func(bus busRow) string { return bus.name }}}
	for _, mode := range diagram.Modes() {
		figure := func(none string, of func(analysis.Peak) string) func(busRow) string {
			return func(bus busRow) string {
				at := slices.IndexFunc(bus.peaks, func(p analysis.Peak) bool { return p.Mode == mode })
				if at < 0 {
					return none
				}
				return of(bus.peaks[at])
			}
		}
		if has[mode] {
			out = append(out,
				table.Column[busRow]{Head: unit.ModeWord(mode.String(), t.sheet.convention) + " V", Right: true, Least: 9, Cell: figure("-", func(p analysis.Peak) string { return fmt.Sprintf("%.0f", p.Volts) })},
				table.Column[busRow]{Head: "µs", Right: true, Least: 5, Gap: 1, Cell: figure("", func(p analysis.Peak) string { return fmt.Sprintf("%.1f", 1e6*p.At) })})
		}
	}
	if many {
		out = append(out, table.Column[busRow]{Head: "WORST FROM", Gap: 2, Cell: func(bus busRow) string { return t.sheet.doc.NameOf(worstOf(bus.peaks).Origin) }})
	}
	return out
}

// worstOf returns the greatest of some peaks.
func worstOf(peaks []analysis.Peak) analysis.Peak {
	return slices.MaxFunc(peaks, func(a, b analysis.Peak) int { return cmp.Compare(a.Volts, b.Volts) })
}

// dutyRow is what one mode of a protector goes through.
type dutyRow struct {
	name string
	idle bool // it does not take part; the rest is nothing
	analysis.Duty
}

func (t surgeTable) protectors(c assess.Case) error {
	installed := installedIn(c)
	if len(installed) == 0 {
		fmt.Fprint(t.out, "\nno protector in its reach\n")
		return nil
	}
	var rows []dutyRow
	for _, id := range installed {
		name := t.sheet.doc.NameOf(id)
		if idle(c.Protectors[id]) {
			rows = append(rows, dutyRow{name: name, idle: true})
			continue
		}
		for _, d := range c.Protectors[id] {
			rows = append(rows, dutyRow{name: name, Duty: d})
		}
	}
	fmt.Fprintln(t.out)
	return table.Text(t.out, t.dutyColumns(), rows, "  (each figure of the line on which it is greatest)\n")
}

func (t surgeTable) dutyColumns() []table.Column[dutyRow] {
	figure := func(head string, least, digits int, of func(dutyRow) float64) table.Column[dutyRow] {
		return table.Column[dutyRow]{Head: head, Right: true, Least: least, Cell: func(d dutyRow) string { return strconv.FormatFloat(of(d), 'f', digits, 64) }}
	}
	return []table.Column[dutyRow]{
		{Head: "PROTECTOR", Least: leastName, Most: mostName, Cell: func(d dutyRow) string { return d.name }},
		{Head: "MODE", Least: 5, Gap: 2, Cell: func(d dutyRow) string { return unit.ModeWord(d.Mode.String(), t.sheet.convention) }, Rest: func(d dutyRow) string {
			if d.idle {
				return fmt.Sprintf("carries less than %g A", idleAmps)
			}
			return ""
		}},
		figure("PEAK A", 10, 0, func(d dutyRow) float64 { return d.Amps }),
		figure("µs", 7, 1, func(d dutyRow) float64 { return 1e6 * d.At }),
		figure("CHARGE mC", 12, 2, func(d dutyRow) float64 { return 1e3 * d.Charge }),
		figure("ENERGY J", 10, 2, func(d dutyRow) float64 { return d.Energy }),
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
			fmt.Fprintln(t.out, strings.ReplaceAll(unit.Wrapped("- "+line, tableWidth-2), "\n", "\n  "))
		}
	default:
		fmt.Fprintf(t.out, "\n%s; --assumptions lists them\n", unit.CountOf(len(lines), "thing was taken so, since the sheet does not say|things were taken so, since the sheet does not say"))
	}
}
