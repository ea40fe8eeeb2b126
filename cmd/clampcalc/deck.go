package main

import (
	"context"
	"io"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/mark"
	"clampline/analysis/report"
	"clampline/analysis/spice"
	"clampline/diagram/unit"
)

const deckLong = `deck writes the circuit that a surge case meets as a deck for a general-purpose
circuit simulator: the very circuit that "clampcalc surge" solves, element by element,
without the protectors that this surge destroys. Loads of which the sheet does not say
what a surge meets there are open in it, or input filters with --filtered; of the two
"clampcalc surge" prints the worse.
ngspice runs it as it is (ngspice -b x.cir) and prints every peak of the circuit,
as a line "name = value" in SI units. The names say kind, mode and bus, such as
peak_lg_main_switchboard with time_lg_main_switchboard, and amps, charge and energy for
each line of a protector.
`

func deckCommand() *cobra.Command {
	var from source
	var choice surgeChoice
	var to output
	var filtered bool
	cmd := &cobra.Command{
		Use:   "deck FILE",
		Short: "write the circuit of a surge case for a circuit simulator",
		Long:  deckLong + statuses,
		Example: "  clampcalc deck tern-quay.clampline -o tern-quay.cir\n" +
			"  clampcalc deck tern-quay.clampline --surge \"Supply, ring wave\" -o ring.cir --force",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := to.check(); err != nil {
				return err
			}
			s, surges, err := choice.open(from, args[0])
			if err != nil {
				return err
			}
			if err := onePlace(s, surges[0]); err != nil {
				return err
			}
			cases, err := s.solve(cmd.Context(), surges[:1])
			if err != nil {
				return err
			}
			met := cases[0].Alone() // with loads open, then as filters where there are two
			one := met[0]
			if filtered {
				one = met[len(met)-1]
			}
			return to.write(cmd.OutOrStdout(), func(w io.Writer) error { return writeDeck(cmd.Context(), w, s, one) })
		},
	}
	from.flags(cmd)
	choice.flags(cmd, "the first")
	cmd.Flags().BoolVar(&filtered, "filtered", false, "take loads of which nothing is said as input filters, not as open")
	to.flags(cmd, "the file to write (default: standard output)")
	return cmd
}

// noteWidth is how many characters a comment of a deck has at most.
const noteWidth = 110

// writeDeck writes the deck with what it is of, the caution and what was taken
// so at its head.
func writeDeck(ctx context.Context, w io.Writer, s sheet, solved assess.Case) error {
	c := solved.Circuit
	notes := []string{
		"Plan: " + s.doc.NameOf(s.plan.ID),
		"Surge case: " + heading(s, c.Surge),
		mark.Caution,
	}
	if lines := assumed(s, assumptionsOf(c)); len(lines) > 0 {
		notes = append(append(notes, takenSo), lines...)
	}
	for i := range notes {
		notes[i] = unit.Wrapped(notes[i], noteWidth)
	}
	return spice.Write(ctx, w, c.Network, spice.Options{Title: report.SheetTitle(s.doc), Notes: notes, Step: c.DeckStep(), Duration: c.Duration})
}

func assumptionsOf(c assess.Circuit) []analysis.Assumption {
	var out []analysis.Assumption
	for _, a := range c.Assumptions {
		out = append(out, analysis.Assumption(a))
	}
	return out
}
