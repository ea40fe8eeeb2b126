package spice

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"clampline/analysis/circuit"
)

// brokeOff is what a deck prints in place of numbers when its run did not reach
// the end.
const brokeOff = "error: the run broke off before its end"

// ParseMeasures reads what the simulator printed for the deck of the network
// and returns the numbers in the order of Measures. An error names the first
// that is missing and quotes what the simulator said was wrong.
func ParseMeasures(out io.Reader, n *circuit.Network) ([]float64, error) {
	all, err := io.ReadAll(out)
	if err != nil {
		return nil, err
	}
	lines := linesOf(string(all))
	found := numbers(lines)
	measures := Measures(n)
	values := make([]float64, len(measures))
	missing := 0
	first := ""
	for i, m := range measures {
		value, ok := found[m.Name]
		if !ok {
			if missing++; missing == 1 {
				first = m.Name
			}
		}
		values[i] = value
	}
	if missing > 0 {
		return nil, fmt.Errorf("%d of %d numbers are missing, first %s: %s", missing, len(measures), first, complaint(lines))
	}
	return values, nil
}

// linesOf returns the lines of the output without blanks around them. A line
// also ends where the simulator goes back to write over it.
func linesOf(out string) []string {
	lines := strings.FieldsFunc(out, func(r rune) bool { return r == '\n' || r == '\r' })
	for i := range lines {
		lines[i] = strings.TrimSpace(lines[i])
	}
	return lines
}

// numbers returns what stands in lines "name = value ...", where the value is a
// number.
func numbers(lines []string) map[string]float64 {
	found := map[string]float64{}
	for _, line := range lines {
		name, rest, ok := strings.Cut(line, "=")
		fields := strings.Fields(rest)
		if !ok || len(fields) == 0 {
			continue
		}
		value, err := strconv.ParseFloat(fields[0], 64)
		if err == nil && !math.IsNaN(value) && !math.IsInf(value, 0) {
			found[strings.TrimSpace(name)] = value
		}
	}
	return found
}

// complaint returns the line in which the simulator says what is wrong. It is
// the first that sounds so: others follow from it.
func complaint(lines []string) string {
	own := "ngspice did not say why"
	for _, line := range lines {
		if line == brokeOff {
			own = line
			continue
		}
		lower := strings.ToLower(line)
		for _, word := range []string{"error", "too small", "singular", "fatal", "aborted"} {
			if strings.Contains(lower, word) {
				return "ngspice: " + line
			}
		}
	}
	return own
}
