package main

import (
	"os"
	"runtime"
	"slices"
	"strings"
)

// family is a group of systems on which software is installed in the same way.
type family int

const (
	otherFamily family = iota // checked, but nothing is installed
	debianFamily
	fedoraFamily
	archFamily
	macFamily
	windowsFamily
)

// system is the operating system that the program runs on.
type system struct {
	name   string // as a person knows it
	family family
	goos   string
}

func thisSystem() system {
	return detectSystem(runtime.GOOS, readOSRelease())
}

// readOSRelease returns the text that describes a Linux distribution, or
// nothing; see os-release(5) of systemd.
func readOSRelease() string {
	for _, path := range []string{"/etc/os-release", "/usr/lib/os-release"} {
		if text, err := os.ReadFile(path); err == nil {
			return string(text)
		}
	}
	return ""
}

func detectSystem(goos, osRelease string) system {
	switch goos {
	case "darwin":
		return system{"macOS", macFamily, goos}
	case "windows":
		return system{"Windows", windowsFamily, goos}
	case "linux":
		fields := parseOSRelease(osRelease)
		return system{distributionName(fields), distributionFamily(fields), goos}
	}
	return system{goos, otherFamily, goos}
}

// parseOSRelease reads lines such as ID=debian and NAME="Debian GNU/Linux".
func parseOSRelease(text string) map[string]string {
	fields := map[string]string{}
	for line := range strings.Lines(text) {
		name, value, found := strings.Cut(strings.TrimSpace(line), "=")
		if found && !strings.HasPrefix(name, "#") {
			fields[name] = strings.Trim(value, `"'`)
		}
	}
	return fields
}

func distributionName(fields map[string]string) string {
	if name := fields["PRETTY_NAME"]; name != "" {
		return name
	}
	if name := fields["ID"]; name != "" {
		return name
	}
	return "this Linux"
}

func distributionFamily(fields map[string]string) family {
	ids := append([]string{fields["ID"]}, strings.Fields(fields["ID_LIKE"])...)
	switch {
	case slices.Contains(ids, "debian"), slices.Contains(ids, "ubuntu"):
		return debianFamily
	case slices.Contains(ids, "fedora"), slices.Contains(ids, "rhel"):
		return fedoraFamily
	case slices.Contains(ids, "arch"):
		return archFamily
	}
	return otherFamily
}

// hasScreen tells whether the system shows windows given its environment: on
// other systems than macOS and Windows a display server must be named.
func (s system) hasScreen(environment func(string) string) bool {
	if s.family == macFamily || s.family == windowsFamily {
		return true
	}
	return environment("DISPLAY") != "" || environment("WAYLAND_DISPLAY") != ""
}
