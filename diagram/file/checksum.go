package file

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"strings"

	"clampline/diagram/disk"
)

// A saved file carries a checksum of itself: the SHA-256 of its text with
// noughts in place of the checksum, without a byte order mark and with line
// ends of one byte. A file without one is taken as it is; one that does not fit
// gives a warning.
const (
	checksumName   = "checksum"
	checksumPrefix = "clampline sha256 " // that no other program writes, so that it is known by the value, too
	checksumDigits = 2 * sha256.Size
)

// seal is what the checksum of a file says.
type seal int

const (
	sealNone   seal = iota // there is none
	sealWhole              // the file is as it was saved
	sealBroken             // it is not
)

// blankChecksum stands in the text of which the checksum is taken.
func blankChecksum() string { return checksumPrefix + strings.Repeat("0", checksumDigits) }

func checksumOf(text []byte) string {
	sum := sha256.Sum256(text)
	return checksumPrefix + hex.EncodeToString(sum[:])
}

// sealed puts the checksum in the place of the noughts.
func sealed(text []byte) []byte {
	return bytes.Replace(text, []byte(blankChecksum()), []byte(checksumOf(text)), 1)
}

// takeSeal takes the checksum out of the members of a file and says whether it
// fits the text. A member is known by its name or by its value: where one of
// the two was damaged, the other tells.
func takeSeal(top map[string]any, text []byte) seal {
	found := sealNone
	for name, value := range top {
		stated, isText := value.(string)
		if name != checksumName && !(isText && strings.HasPrefix(stated, checksumPrefix)) {
			continue
		}
		delete(top, name)
		if found == sealNone && name == checksumName && fits(text, stated) {
			found = sealWhole
			continue
		}
		found = sealBroken
	}
	return found
}

func fits(text []byte, stated string) bool {
	if len(stated) != len(blankChecksum()) {
		return false
	}
	text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	return checksumOf(bytes.Replace(text, []byte(stated), []byte(blankChecksum()), 1)) == stated
}

// brokenSeal says what it means that the checksum of a file does not fit.
func brokenSeal(d disk.Disk, path string) string {
	text := "The file is not as it was saved: its checksum does not fit, so something in it was changed by a fault of a disk, in copying, or by hand."
	if backups := d.Backups(path); len(backups) > 0 {
		text += fmt.Sprintf(" The file before it is kept as %s.", filepath.Base(backups[0]))
	}
	return text + ` Where it was edited by hand on purpose, save it here, or take the line "` + checksumName + `" out of it.`
}
