package unit

import (
	"fmt"
	"strings"
)

// Convention is a way of writing quantities and of naming a few things.
type Convention uint8

// The two conventions.
const (
	NorthAmerican Convention = iota // feet and inches, AWG and kcmil, ground
	IEC                             // metres and millimetres, mm², earth
)

// String returns "us" or "iec", as settings store it.
func (c Convention) String() string {
	if c == IEC {
		return "iec"
	}
	return "us"
}

// ParseConvention returns the convention whose String is text, in any case.
func ParseConvention(text string) (Convention, error) {
	switch strings.ToLower(text) {
	case "us":
		return NorthAmerican, nil
	case "iec":
		return IEC, nil
	}
	return NorthAmerican, fmt.Errorf("%s is no convention; write us or iec", quoted(text))
}
