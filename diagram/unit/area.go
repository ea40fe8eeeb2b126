package unit

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

var errGauge = errors.New("there is no such gauge; write one from 36 to 1 or 1/0 to 4/0, like 2 AWG or 4/0 AWG")

// area reads a wire size: a gauge, or an area with a unit. A number alone is in
// mm² in IEC, and a size of the trade in the North American convention.
func (q quantity) area(text string, c Convention) (float64, error) {
	if text == "" {
		return 0, errors.New("the size is missing; write one, like 2 AWG, 250 kcmil or 35 mm²")
	}
	name, marked := cutGaugeMark(text)
	n, ok := gaugeNumber(name)
	switch {
	case ok && (marked || c != IEC || strings.HasSuffix(name, "/0")):
		return AWGArea(n), nil
	case marked, strings.HasSuffix(name, "/0"):
		return 0, errGauge
	}
	sign, rest := cutSign(text)
	number, rest, err := cutNumber(rest)
	if err != nil {
		return 0, err
	}
	unit := strings.ReplaceAll(rest, " ", "")
	if unit == "" && c != IEC {
		return tradeSize(sign*number, text)
	}
	m, err := q.find(unit)
	if err != nil {
		return 0, fmt.Errorf("%s is no unit of area; write AWG, kcmil or mm²", quoted(unit))
	}
	return sign * number * m.worth, nil
}

// cutGaugeMark takes "#" and "AWG" off a size and reports whether there was one.
func cutGaugeMark(text string) (name string, marked bool) {
	name = strings.TrimSpace(strings.TrimPrefix(text, "#"))
	marked = len(name) < len(text)
	const mark = "awg"
	lower := strings.ToLower(name)
	switch {
	case len(lower) != len(name): // a letter whose two cases differ in length: no gauge
	case strings.HasSuffix(lower, mark):
		return strings.TrimSpace(name[:len(name)-len(mark)]), true
	case strings.HasPrefix(lower, mark):
		return strings.TrimSpace(name[len(mark):]), true
	}
	return name, marked
}

// gaugeNumber returns the number in the formula of a gauge as written: "4" is
// 4, "1/0", "0" are 0, "4/0" and "0000" are -3.
func gaugeNumber(name string) (int, bool) {
	switch name {
	case "0", "00", "000", "0000":
		return 1 - len(name), true
	case "1/0", "2/0", "3/0", "4/0":
		return 1 - int(name[0]-'0'), true
	}
	n, err := strconv.Atoi(name)
	if err != nil || strconv.Itoa(n) != name || n < 1 || n > smallestGauge {
		return 0, false
	}
	return n, true
}

// tradeSize returns the area of a number alone: a gauge or a kcmil size.
func tradeSize(number float64, text string) (float64, error) {
	if n := int(number); float64(n) == number && n >= 1 && n <= smallestGauge {
		return AWGArea(n), nil
	}
	if kcmilSize(number) {
		return number * kcmil.worth, nil
	}
	return 0, fmt.Errorf("a number alone is a gauge or a kcmil size, and %s is neither; write AWG, kcmil or mm² after it", quoted(text))
}
