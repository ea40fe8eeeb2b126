package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis/assess"
	"clampline/analysis/spice"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const crosscheckLong = `crosscheck solves each surge case twice: here, and by running its deck with ngspice.
For every number that the deck prints it shows ours, that of ngspice, the difference,
and the difference in per cent of ngspice's; last, the worst of them. Names are those of
the deck. What may differ, whichever is more:

  peak    1 %% or %g V, of each mode of each bus
  amps    2 %% or %g A, the greatest current in each line of a protector
  charge  2 %% or %g mC, of its magnitude
  energy  2 %% or %g J

Times (time) are shown but not compared: a flat crest has no sharp one.

Where the sheet does not say of a load what a surge meets there, a case is compared with
such loads open and once more with them as input filters.

ngspice is a free circuit simulator; on Debian and Ubuntu it is the package ngspice. A
large sheet takes it a minute or more for each surge case and each place at which one
arrives.

`

// checksHelp tells of the members of what --json prints.
func checksHelp() string {
	return unit.Wrapped("With --json it prints an object: plan, within (whether all is within the limits) and cases, an array. Each case has name and id of the surge case, loads (open or filtered: how those are taken of which nothing is said) and measures, each with "+
		table.Help(measureColumns())+", in SI units.", helpWidth) + "\n"
}

func crosscheckCommand() *cobra.Command {
	var from source
	var choice surgeChoice
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "crosscheck FILE",
		Short: "compare the solved surge cases with ngspice",
		Long: fmt.Sprintf(crosscheckLong, limitOf(spice.PeakVolts).floor, limitOf(spice.PeakAmps).floor,
			1e3*limitOf(spice.Charge).floor, limitOf(spice.Energy).floor) + checksHelp() + statuses,
		Example: "  clampcalc crosscheck fell-farm.clampline\n" +
			"  clampcalc crosscheck fell-farm.clampline --surge \"Supply, ring wave\" --json",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			s, surges, err := choice.open(from, args[0])
			if err != nil {
				return err
			}
			if _, ok := spice.Find(); !ok {
				return fileError(errors.New("crosscheck: ngspice is not on this machine; install it and see that it is on the path (on Debian and Ubuntu: apt install ngspice)"))
			}
			cases, err := s.solve(cmd.Context(), surges)
			if err != nil {
				return err
			}
			checked, err := checkAll(cmd.Context(), s, cases)
			if err != nil {
				return err
			}
			if asJSON {
				err = writeJSON(cmd.OutOrStdout(), checksOf(s, checked))
			} else {
				err = writeChecks(cmd.OutOrStdout(), s, checked)
			}
			if err == nil && !within(checked) {
				return failure{exitFindings, errors.New("")}
			}
			return err
		},
	}
	from.flags(cmd)
	choice.flags(cmd, "all of them")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return cmd
}

// checkedCase is a surge case with every number found twice.
type checkedCase struct {
	assess.Case
	comparisons []comparison
}

func checkAll(ctx context.Context, s sheet, cases []assess.Case) ([]checkedCase, error) {
	var out []checkedCase
	for _, met := range cases {
		for _, c := range met.Alone() {
			comparisons, err := compareDeck(ctx, s, c)
			if err != nil {
				return nil, fileError(fmt.Errorf("%s: %w", surgeName(s, c.Surge), err))
			}
			out = append(out, checkedCase{c, comparisons})
		}
	}
	return out, nil
}

// loadsOf says in a word how the loads of a circuit are taken of which the sheet says
// nothing, and nothing where there are none.
func loadsOf(c assess.Circuit) string {
	switch {
	case len(c.Unstated) == 0:
		return ""
	case c.Filtered:
		return string(diagram.FilteredTerminals)
	}
	return string(diagram.OpenTerminals)
}

// compareDeck runs the deck of a case and puts its numbers beside ours.
func compareDeck(ctx context.Context, s sheet, c assess.Case) ([]comparison, error) {
	var deck strings.Builder
	if err := writeDeck(ctx, &deck, s, c); err != nil {
		return nil, err
	}
	printed, err := spice.Run(ctx, deck.String())
	if err != nil {
		return nil, err
	}
	theirs, err := spice.ParseMeasures(strings.NewReader(printed), c.Circuit.Network)
	if err != nil {
		return nil, err
	}
	var out []comparison
	for i, m := range spice.Measures(c.Circuit.Network) {
		out = append(out, comparison{m, ours(c, m), theirs[i]})
	}
	return out, nil
}

// ours returns what the solver found for a measure.
func ours(c assess.Case, m spice.Measure) float64 {
	if m.Bus >= 0 {
		for _, peak := range c.Peaks[m.Bus] {
			if peak.Mode.String() == m.Mode {
				if m.Kind == spice.PeakTime {
					return peak.At
				}
				return peak.Volts
			}
		}
		panic("clampcalc: the deck measures a mode that the bus does not have: " + m.Name)
	}
	duty := c.Solved.Varistors
	at := m.Varistor
	if m.Gap >= 0 {
		duty, at = c.Solved.Gaps, m.Gap
	}
	switch m.Kind {
	case spice.PeakAmps:
		return duty[at].Amps
	case spice.Charge:
		return duty[at].Coulombs
	}
	return duty[at].Joules
}
