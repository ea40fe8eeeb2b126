package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"clampline/analysis/spice"
	"clampline/analysis/table"
	"clampline/diagram/unit"
)

// writeChecks writes every number found twice, and the worst at the end.
func writeChecks(out io.Writer, s sheet, cases []checkedCase) error {
	writeTitle(out, s)
	for _, c := range cases {
		head := heading(s, c.Surge)
		if loads := loadsOf(c.Circuit); loads != "" {
			head += "; loads of which nothing is said " + loads
		}
		fmt.Fprintf(out, "%s\n\n", unit.Wrapped(head, tableWidth))
		if err := table.Text(out, measureColumns(), c.comparisons, ""); err != nil {
			return fileError(err)
		}
		fmt.Fprintln(out)
	}
	return writeVerdict(out, s, cases)
}

func writeVerdict(out io.Writer, s sheet, cases []checkedCase) error {
	in, x, ok := worst(cases)
	if ok {
		allowed, _ := x.allowed()
		fmt.Fprintf(out, "worst: %s in “%s”: %s (%s %%), where %s is allowed\n", x.Name, surgeName(s, in.Surge),
			shown(x.Kind, x.difference()), percentCell(x), shown(x.Kind, allowed))
	}
	beyond, compared := countBeyond(cases)
	_, err := fmt.Fprintf(out, "%s of %d compared beyond the limits\n", unit.CountOf(beyond, "number"), compared)
	return wrapFile(err)
}

// shown writes a number with the unit in which people read it.
func shown(kind spice.Kind, v float64) string {
	switch kind {
	case spice.PeakTime:
		return fixed(1e6*v, 2) + " µs"
	case spice.PeakAmps:
		return fixed(v, 1) + " A"
	case spice.Charge:
		return fixed(1e3*v, 3) + " mC"
	case spice.Energy:
		return fixed(v, 3) + " J"
	}
	return fixed(v, 1) + " V"
}

// fixed writes a number with some decimals, nothing without a sign.
func fixed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

func percentCell(x comparison) string {
	percent, ok := x.percent()
	if !ok {
		return "-"
	}
	return fixed(percent, 2)
}

func beyondCell(x comparison) string {
	if x.within() {
		return ""
	}
	return "  beyond"
}
