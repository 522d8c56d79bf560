// Package clock holds times of day, windows that may cross midnight, and what
// can be asked of them: how long, how long unbroken, on or off at a minute.
//
// A day is 1,440 minutes and repeats, so a window 18:00-06:00 is one unbroken
// run of twelve hours, and "always" never ends.
package clock

import (
	"fmt"
	"strconv"
	"strings"
)

// Minute is a minute of the day, 0 to 1440. 1440 is the end of the day.
type Minute int

// Day is the length of a day in minutes.
const Day Minute = 24 * 60

// Hour is the length of an hour in minutes.
const Hour Minute = 60

// ParseMinute reads "06:00" or "24:00".
func ParseMinute(s string) (Minute, error) {
	h, m, ok := strings.Cut(strings.TrimSpace(s), ":")
	hours, errH := strconv.Atoi(h)
	minutes, errM := strconv.Atoi(m)
	if !ok || errH != nil || errM != nil || len(h) != 2 || len(m) != 2 || strings.ContainsAny(s, "+-") ||
		hours < 0 || hours > 24 || minutes < 0 || minutes > 59 || hours == 24 && minutes > 0 {
		return 0, fmt.Errorf("%q is not a time of day", s)
	}
	return Minute(hours)*Hour + Minute(minutes), nil
}

// String returns the time as 06:00.
func (m Minute) String() string { return fmt.Sprintf("%02d:%02d", int(m/Hour), int(m%Hour)) }

// Hours returns a duration in hours.
func (m Minute) Hours() float64 { return float64(m) / float64(Hour) }
