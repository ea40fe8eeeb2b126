package main

import (
	"context"
	"errors"
	"maps"
	"slices"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const surgeLong = `surge solves the transient of each surge case of the file, or of the usual ones where
it has none (over the supply, a flash to a building with lightning protection, and born
inside at every board and load), and prints the peak of every mode at every bus with the time at
which it is reached, what every mode of every protector goes through, and how far
the energy balance is off. Last comes the verdict of each bus in its worst mode, the
worst surge case counting, as "levels --basis transient" prints it.

Where the sheet does not say of a load what a surge meets there, each case is solved
with such loads open and once more with them as input filters; every figure is the
worse of the two.

With --halve every case is solved by half its step, too: the peak that moves most
tells how exact the others are (stepError in JSON, as a share).

With --wave it writes the voltages of one bus over time as CSV: time_s, then a column
for each pair of conductors, such as A-N_V and A-G_V, where G is ground
(earth). Of two circuits it is that in which the voltage of the bus is higher.

`

func surgeCommand() *cobra.Command {
	var from source
	var choice surgeChoice
	var show surgeView
	cmd := &cobra.Command{
		Use:   "surge FILE",
		Short: "solve the surge cases: peaks at every bus, duties of protectors",
		Long:  surgeLong + bandLong + unit.Wrapped(surgesHelp(), helpWidth) + "\n" + statuses,
		Example: "  clampcalc surge tern-quay.clampline\n" +
			"  clampcalc surge tern-quay.clampline --surge \"Supply, ring wave\" --assumptions\n" +
			"  clampcalc surge tern-quay.clampline --json\n" +
			"  clampcalc surge tern-quay.clampline --wave \"Main switchboard\" -o main.csv",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := show.check(); err != nil {
				return err
			}
			s, surges, err := choice.open(from, args[0])
			if err != nil {
				return err
			}
			return show.run(cmd, s, surges)
		},
	}
	from.flags(cmd)
	from.everywhereFlag(cmd)
	choice.flags(cmd, "all of them; with --wave the first")
	show.flags(cmd)
	return cmd
}

// surgeView is how the command shows what was solved.
type surgeView struct {
	json, assumptions bool
	halve             bool
	sure              bandChoice
	wave              string
	to                output
}

func (v *surgeView) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&v.json, "json", false, "print JSON")
	cmd.Flags().BoolVar(&v.assumptions, "assumptions", false, "list what was taken so, since the sheet does not say")
	cmd.Flags().BoolVar(&v.halve, "halve", false, "solve by half the step, too, and tell how far peaks move")
	v.sure.flags(cmd)
	cmd.Flags().StringVar(&v.wave, "wave", "", "write the waves of this bus, by name or id, as CSV")
	v.to.flags(cmd, "with --wave: the file to write (default: standard output)")
}

func (v *surgeView) check() error {
	switch {
	case v.wave == "" && (v.to.path != "" || v.to.force):
		return usageError("surge: -o and --force go with --wave; name the bus, for example: --wave \"Main switchboard\"")
	case v.wave != "" && (v.json || v.assumptions || v.halve || v.sure.on):
		return usageError("surge: --wave writes CSV; leave out --json, --assumptions, --halve and --band")
	}
	if err := v.sure.check(); err != nil {
		return err
	}
	return v.to.check()
}

func (v *surgeView) run(cmd *cobra.Command, s sheet, surges []diagram.Surge) error {
	if v.wave != "" {
		if err := onePlace(s, surges[0]); err != nil {
			return err
		}
		return writeWaves(cmd, s, surges[0], v.wave, v.to)
	}
	cases, err := s.solve(cmd.Context(), surges)
	if err != nil {
		return err
	}
	if v.halve {
		if err := new(assess.Engine).Halve(cmd.Context(), cases); err != nil {
			return s.refusal(err)
		}
	}
	if err := v.sure.find(cmd, &s); err != nil {
		return err
	}
	write := func() error { return surgeTable{cmd.OutOrStdout(), s}.write(cases, v.assumptions) }
	if v.json {
		write = func() error { return writeJSON(cmd.OutOrStdout(), surgesOf(s, cases)) }
	}
	if err := write(); err != nil {
		return err
	}
	return unsolved(s)
}

// unsolved returns an error that tells of the surge cases which were not solved,
// or nil.
func unsolved(s sheet) error {
	var all []error
	for _, f := range s.result.Findings {
		if f.Rule == "surge.not solved" || f.Rule == "surge.nowhere" {
			all = append(all, errors.New(unit.Words(f.Why, s.convention)))
		}
	}
	if len(all) == 0 {
		return nil
	}
	return s.refusal(errors.Join(all...))
}

// solve solves the surge cases and judges the sheet by them.
func (s *sheet) solve(ctx context.Context, surges []diagram.Surge) ([]assess.Case, error) {
	result, cases, err := s.engine().Cases(ctx, s.doc, s.plan.ID, surges...)
	if err != nil {
		return nil, s.refusal(err)
	}
	s.result = result
	return cases, nil
}

// busRow is what a surge case does to a board or load, or to another bus of its
// circuit.
type busRow struct {
	assess.Place
	name  string
	peaks []analysis.Peak // one for each mode that it has
}

// rowsOf returns the buses of a case: boards and loads in the order of the levels,
// then all others in the order of the circuit. Of a case that arrives at many places
// there are no others.
func rowsOf(s sheet, c assess.Case) (judgedOnes, others []busRow) {
	of := map[diagram.ID]busRow{}
	for id, peaks := range c.Buses {
		if len(c.At) > 0 {
			of[id] = busRow{assess.Place{Record: id, Judged: true}, s.doc.NameOf(id), peaks}
		}
	}
	for bus, place := range c.Circuit.Places {
		row := busRow{place, c.Circuit.Network.Buses[bus].Name, c.Peaks[bus]}
		if place.Judged {
			of[place.Record] = row
		} else {
			others = append(others, row)
		}
	}
	for _, part := range judged(s) {
		if row, ok := of[part.ID]; ok {
			judgedOnes = append(judgedOnes, row)
		}
	}
	return judgedOnes, others
}

// installedIn returns the protectors that a case comes to.
func installedIn(c assess.Case) []diagram.ID {
	if len(c.At) > 0 {
		return slices.SortedFunc(maps.Keys(c.Protectors), diagram.CompareID)
	}
	out := make([]diagram.ID, len(c.Circuit.Protectors))
	for i, p := range c.Circuit.Protectors {
		out[i] = p.ID
	}
	return out
}
