package survey

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// numbers finds a day in three numbers with the year last: 29.11.2026, 11/29/2026.
var numbers = regexp.MustCompile(`^(\d{1,2})([./\- ])\s*(\d{1,2})[./\- ]\s*(\d{4})$`)

// dayOf reads a day as people and spreadsheets write it. Where two numbers may each be
// the month nothing is guessed, but for those with points between, which begin with the
// day.
func dayOf(text string, c unit.Convention) (string, error) {
	text = strings.TrimSpace(text)
	if found := numbers.FindStringSubmatch(text); found != nil {
		first, _ := strconv.Atoi(found[1])
		second, _ := strconv.Atoi(found[3])
		switch {
		case found[2] == "." || first > 12 || first == second:
			return calendar(text, found[4], second, first)
		case second > 12:
			return calendar(text, found[4], first, second)
		}
		one, _ := calendar(text, found[4], first, second)
		other, _ := calendar(text, found[4], second, first)
		return "", unread{"must be " + one + " or " + other, quoted(text) + " may be either"}
	}
	for _, layout := range []string{time.DateOnly, "2006/1/2", "2006-1-2", "2 Jan 2006", "2 January 2006", "Jan 2, 2006", "January 2, 2006", "2-Jan-2006", time.DateTime} {
		if day, err := time.Parse(layout, text); err == nil {
			return day.Format(time.DateOnly), nil
		}
	}
	return "", noDay(text)
}

func calendar(text, year string, month, day int) (string, error) {
	y, _ := strconv.Atoi(year)
	out := time.Date(y, time.Month(month), day, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
	if want, err := time.Parse("2006-1-2", strings.Join([]string{year, strconv.Itoa(month), strconv.Itoa(day)}, "-")); err != nil || !diagram.IsDate(out) || want.Day() != day {
		return "", noDay(text)
	}
	return out, nil
}

func noDay(text string) error {
	return unit.Must{Wanted: "a day", Such: "2026-11-29", Typed: text}
}
