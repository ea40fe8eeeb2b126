package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// surgeChoice is the surge case that a command works on, as its option says.
type surgeChoice struct{ word, at string }

func (c *surgeChoice) flags(cmd *cobra.Command, otherwise string) {
	cmd.Flags().StringVar(&c.word, "surge", "", "the surge case, by name or id (default: "+otherwise+")")
	cmd.Flags().StringVar(&c.at, "at", "", "let it arrive at this part alone, by name or id")
}

// open reads a sheet, and picks the surge cases of it that are asked for.
func (c surgeChoice) open(from source, path string) (sheet, []diagram.Surge, error) {
	s, err := from.open(path)
	if err != nil {
		return sheet{}, nil, err
	}
	surges, err := c.of(s.doc)
	if err == nil && c.at != "" {
		surges, err = c.alone(s, surges)
	}
	return s, surges, err
}

// alone returns the surge cases as ones that arrive at the part that is asked for.
func (c surgeChoice) alone(s sheet, surges []diagram.Surge) ([]diagram.Surge, error) {
	for part := range s.doc.Parts() {
		if len(part.Kind.Ports()) > 0 && (string(part.ID) == c.at || strings.EqualFold(s.doc.NameOf(part.ID), c.at)) {
			out := slices.Clone(surges)
			for i := range out {
				out[i].Part, out[i].Places, out[i].Category, out[i].Switching = part.ID, "", "", ""
			}
			return out, nil
		}
	}
	return nil, usageError("--at: there is no part %q with terminals", c.at)
}

// onePlace refuses a surge case that arrives at many places.
func onePlace(s sheet, surge diagram.Surge) error {
	if surge.Places == "" {
		return nil
	}
	return usageError("the surge case “%s” arrives at %s; name one of them, for example: --at \"Main switchboard\"", surgeName(s, surge), surge.Places)
}

// of returns the surge case with the id or the name, upper and lower case
// alike; no word takes all of them.
func (c *surgeChoice) of(doc *diagram.Document) ([]diagram.Surge, error) {
	all := analysis.SurgesOf(doc)
	if c.word == "" {
		return all, nil
	}
	var names []string
	for _, surge := range all {
		name := analysis.SurgeName(doc, surge)
		if string(surge.ID) == c.word || strings.EqualFold(name, c.word) || strings.EqualFold(unit.Terms(name, unit.NorthAmerican), c.word) {
			return []diagram.Surge{surge}, nil
		}
		names = append(names, name)
	}
	return nil, usageError("--surge: there is no surge case %q; there are: %s", c.word, strings.Join(names, "; "))
}

// surgeName is what people call a surge case, in the words of the convention.
func surgeName(s sheet, surge diagram.Surge) string {
	return unit.Terms(analysis.SurgeName(s.doc, surge), s.convention)
}

// describe says what arrives where.
func describe(s sheet, surge diagram.Surge) string {
	return fmt.Sprintf("%s wave, %s open-circuit, %s short-circuit, %s, at %s", surge.Wave,
		unit.Format(surge.Voltage, unit.Voltage, s.convention), unit.Format(surge.Current, unit.Current, s.convention), unit.Terms(string(surge.Path), s.convention), analysis.ArrivesAt(s.doc, surge))
}

// heading names a surge case and says what arrives where.
func heading(s sheet, surge diagram.Surge) string {
	return surgeName(s, surge) + ": " + describe(s, surge)
}
