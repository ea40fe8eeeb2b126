package main

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const bandLong = `With --band it tells how sure each voltage is. Some hundred runs are solved in which
what nobody knows for sure lies anywhere within its range: the voltage of varistors,
lengths of leads, how conductors of feeders lie, loads that say nothing of themselves,
the crest of the surge, and the mains at the moment of the surge. 5 % of the runs lie
below the first voltage and 95 % below the second; the mains is in them, and not in
the voltage beside. A bus holds in a run where no voltage exceeds its withstand, Held
or Tight; where that is in doubt it has more runs, until two seeds differ by no more
than 2 %. A run of a flash ends at twice the time of its last high peak, unless it is
in doubt which protectors it destroys. Below stand the three ranges that move each
voltage most. The same seed gives the same numbers. It takes some hundred times as
long.

`

// bandChoice is whether bands are asked for, and how they are found.
type bandChoice struct {
	on   bool
	runs int
	seed uint64
}

func (b *bandChoice) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&b.on, "band", false, "tell how sure each voltage is")
	cmd.Flags().IntVar(&b.runs, "runs", assess.BandRuns, "with --band: how many runs each bus has at most")
	cmd.Flags().Uint64Var(&b.seed, "seed", 1, "with --band: another number gives other runs")
}

const leastRuns, mostRuns = 20, 100_000

func (b *bandChoice) check() error {
	switch {
	case !b.on && (b.runs != assess.BandRuns || b.seed != 1):
		return usageError("--runs and --seed go with --band")
	case b.runs < leastRuns || b.runs > mostRuns:
		return usageError("--runs: %d is not from %d to %d", b.runs, leastRuns, mostRuns)
	}
	return nil
}

// find fills in the bands of the result of a sheet, where they are asked for.
func (b *bandChoice) find(cmd *cobra.Command, s *sheet) error {
	if !b.on {
		return nil
	}
	options := assess.BandOptions{Runs: b.runs, Seed: b.seed}
	if isTerminal(os.Stderr) {
		options.Progress = tenths(cmd.ErrOrStderr())
	}
	var err error
	if s.bands, err = s.engine().Band(cmd.Context(), s.doc, s.result, options); err != nil {
		return s.refusal(err)
	}
	return nil
}

// tenths tells each time a tenth more of the runs is done.
func tenths(to io.Writer) func(done, of int) {
	told := 0
	return func(done, of int) {
		if tenth := 10 * done / of; tenth > told {
			told = tenth
			fmt.Fprintf(to, "clampcalc: run %d of %d\n", done, of)
		}
	}
}

// shares tells each time a tenth more of the work is done.
func shares(to io.Writer) func(share float64) {
	told := 0
	return func(share float64) {
		if tenth := int(10 * share); tenth > told {
			told = tenth
			fmt.Fprintf(to, "clampcalc: %d %% solved\n", 10*tenth)
		}
	}
}

func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// bandCells are the columns of a text; none where no bands were asked for.
func bandCells(s sheet) []table.Column[diagram.Part] {
	if s.bands == nil {
		return nil
	}
	column := func(head string, of func(analysis.Band) string) table.Column[diagram.Part] {
		return table.Column[diagram.Part]{Head: head, Gap: 2, Cell: func(p diagram.Part) string {
			if band, ok := s.bands[p.ID]; ok {
				return of(band)
			}
			return "-"
		}}
	}
	return []table.Column[diagram.Part]{
		column("5 %", func(b analysis.Band) string { return mark.BandVolts(b.Low, s.convention) }),
		column("95 %", func(b analysis.Band) string { return mark.BandVolts(b.High, s.convention) }),
		column("HOLDS IN", func(b analysis.Band) string {
			if b.Withstand <= 0 {
				return "-"
			}
			return fmt.Sprintf("%d %%", b.Percent())
		}),
	}
}

// writeRanges lists below a table what moves each voltage most.
func writeRanges(out io.Writer, s sheet) {
	if s.bands == nil {
		return
	}
	fmt.Fprintln(out, "\nWhat moves each voltage most, alone and within its range")
	for _, part := range judged(s) {
		var words []string
		for _, r := range s.bands[part.ID].Ranges {
			words = append(words, mark.RangeText(s.doc, r, s.convention))
		}
		if len(words) > 0 {
			fmt.Fprintln(out, unit.Wrapped(s.doc.NameOf(part.ID)+": "+strings.Join(words, ", "), tableWidth))
		}
	}
}

// bandColumn is the band of a part in JSON.
func bandColumn(s sheet) table.Column[diagram.Part] {
	help := "with --band: " + table.Help(bandColumns(s)) + "; each of ranges has " + table.Help(rangeColumns(s))
	return table.Column[diagram.Part]{Name: "band", Help: help, Optional: true, Value: func(p diagram.Part) any {
		if band, ok := s.bands[p.ID]; ok {
			return table.RecordOf(bandColumns(s), band)
		}
		return nil
	}}
}

// bandsOrNil are the bands of all parts, or nil where nobody asked.
func bandsOrNil(s sheet) any {
	if s.bands == nil {
		return nil
	}
	parts := slices.DeleteFunc(judged(s), func(p diagram.Part) bool { _, ok := s.bands[p.ID]; return !ok })
	return table.Records(bandedColumns(s), parts)
}

func bandedColumns(s sheet) []table.Column[diagram.Part] {
	return []table.Column[diagram.Part]{
		text("id", "", func(p diagram.Part) string { return string(p.ID) }),
		text("name", "", func(p diagram.Part) string { return s.doc.NameOf(p.ID) }),
		bandColumn(s),
	}
}

func bandColumns(s sheet) []table.Column[analysis.Band] {
	type b = analysis.Band
	return []table.Column[b]{
		text("mode", "", func(b b) string { return b.Mode.String() }),
		{Name: "low", Help: "V, 5 % of the runs lie below", Value: func(b b) any { return rounded(b.Low) }},
		{Name: "high", Help: "V, 95 %", Value: func(b b) any { return rounded(b.High) }},
		{Name: "holds", Help: "share of the runs in which no voltage exceeds its withstand; null where that is not known", Value: func(b b) any {
			if b.Withstand <= 0 {
				return nil
			}
			return rounded(b.Holds)
		}},
		{Name: "off", Help: "standard error of holds", Value: func(b b) any { return rounded(b.Off) }},
		{Name: "runs", Help: "how many were solved of this bus", Value: func(b b) any { return b.Runs }},
		{Name: "ranges", Help: "an array of three at most, what moves the voltage most first", Value: func(b b) any { return table.Records(rangeColumns(s), b.Ranges) }},
	}
}

func rangeColumns(s sheet) []table.Column[analysis.BandRange] {
	type r = analysis.BandRange
	return []table.Column[r]{
		text("id", "of the record; empty for the surge and the mains", func(r r) string { return string(r.Record) }),
		text("what", "", func(r r) string { return unit.Words(r.What, s.convention) }),
		{Name: "volts", Help: "by how much it moves the voltage to either side, alone", Value: func(r r) any { return rounded(r.Volts) }},
		text("source", "of the range", func(r r) string { return unit.Terms(r.Source, s.convention) }),
	}
}
