package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"clampline/analysis/assess"
	"clampline/analysis/circuit"
	"clampline/analysis/table"
	"clampline/diagram"
)

// writeWaves writes the voltages of one bus in one surge case.
func writeWaves(cmd *cobra.Command, s sheet, surge diagram.Surge, word string, to output) error {
	cases, err := s.solve(cmd.Context(), []diagram.Surge{surge})
	if err != nil {
		return err
	}
	bus, err := findBus(s, cases[0].Circuit, word)
	if err != nil {
		return err
	}
	waves, err := assess.Waves(cmd.Context(), highestAt(cases[0], bus), bus)
	if err != nil {
		return fileError(err)
	}
	return to.write(cmd.OutOrStdout(), func(w io.Writer) error { return writeCSV(w, waves) })
}

// highestAt returns the circuit of a case by which the voltage of a bus is highest.
func highestAt(c assess.Case, bus int) assess.Circuit {
	var out assess.Circuit
	highest := -1.0
	for _, one := range c.Alone() {
		for _, peak := range one.Peaks[bus] {
			if peak.Volts > highest {
				out, highest = one.Circuit, peak.Volts
			}
		}
	}
	return out
}

// findBus returns the number of the bus that the word names: by its name in
// the circuit, by the name or the id of its part.
func findBus(s sheet, c assess.Circuit, word string) (int, error) {
	var found, all []int
	for bus, place := range c.Places {
		name := c.Network.Buses[bus].Name
		if strings.EqualFold(name, word) {
			return bus, nil
		}
		if string(place.Record) == word || strings.EqualFold(s.doc.NameOf(place.Record), word) {
			found = append(found, bus)
		}
		all = append(all, bus)
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return 0, usageError("--wave: the surge case “%s” reaches no bus %q; it reaches: %s", surgeName(s, c.Surge), word, busNames(c.Network, all))
	}
	return 0, usageError("--wave: %q has several terminals; name one of: %s", word, busNames(c.Network, found))
}

// listedNames is how many names an error spells out.
const listedNames = 40

func busNames(n *circuit.Network, buses []int) string {
	var names []string
	for i, bus := range buses {
		if i == listedNames {
			names = append(names, fmt.Sprintf("and %d more", len(buses)-i))
			break
		}
		names = append(names, n.Buses[bus].Name)
	}
	return strings.Join(names, "; ")
}

// writeCSV writes waves that are sampled alike.
func writeCSV(w io.Writer, waves []assess.Wave) error {
	columns := []table.Column[int]{text("time_s", "", func(i int) string { return digits(waves[0].Start + float64(i)*waves[0].Step) })}
	for _, wave := range waves {
		columns = append(columns, text(wave.Between+"_V", "", func(i int) string { return digits(wave.Values[i]) }))
	}
	rows := make([]int, len(waves[0].Values))
	for i := range rows {
		rows[i] = i
	}
	return table.CSV(w, columns, rows)
}

// digits writes a number to more digits than it is worth, without the noise
// of binary fractions.
func digits(v float64) string { return strconv.FormatFloat(v, 'g', 8, 64) }
