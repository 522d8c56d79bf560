package judge_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"branchwork/codes"
)

// tent is the tent on a bedroom circuit of 15 A and 14 AWG, with some texts
// replaced: old and new in pairs.
func tent(t *testing.T, pairs ...string) map[string]codes.Finding {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "sites", "tent.toml"))
	require.NoError(t, err)
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, string(text), pairs[i])
	}
	_, found := judged(t, "tent.toml", "# check\n"+strings.NewReplacer(pairs...).Replace(string(text)), defaultProfile(t))
	out := map[string]codes.Finding{}
	for _, f := range found {
		out[f.Rule] = f
	}
	return out
}

// Behind a breaker of 15 A neither a larger receptacle nor a larger conductor cures a
// heater of 1,500 W, 12.5 A: its 125 % are 15.6 A, whatever else is moved.
func TestRemediesCureWhatTheyAreSaidOf(t *testing.T) {
	large := []string{`power = "750 W"`, `power = "1500 W"`}
	f := tent(t, large...)
	assert.Contains(t, f["receptacle-load"].Remedy, "a larger receptacle alone is no remedy")
	assert.NotContains(t, f["receptacle-load"].Remedy, "fit a")
	assert.NotContains(t, f["conductor-ampacity"].Remedy, "larger conductor", "its breaker would not carry the load either")
	assert.Contains(t, f["fixed-heating"].Remedy, "take a smaller one than space-heater")
	assert.NotContains(t, f["fixed-heating"].Remedy, "bedroom", "moving lamps cures no heater")
	for _, rule := range []string{"receptacle-load", "one-plug-load", "fixed-heating"} {
		assert.NotContains(t, f[rule].Remedy, "supply it at", "%s: it takes 120 V only", rule)
	}

	dual := tent(t, append(large, "voltage = \"120 V\"\nhours = \"06:00-18:00\"\ndedicated = false\nwired = false", "voltage = \"120-240 V\"\nhours = \"06:00-18:00\"\ndedicated = false\nwired = false")...)
	for _, rule := range []string{"receptacle-load", "one-plug-load", "fixed-heating"} {
		assert.Contains(t, dual[rule].Remedy, "supply it at 240 V, which it accepts", rule)
	}

	on20 := tent(t, append(large, `breaker = "15 A"`, `breaker = "20 A"`, `"14 AWG copper NM-B"`, `"12 AWG copper NM-B"`)...)
	assert.Contains(t, on20["receptacle-load"].Remedy, "fit a NEMA 5-20R, as its breaker of 20 A calls for")
}

// A conductor that is too small behind a breaker that is not is relieved or replaced,
// and the breaker stays: 19.35 A on 14 AWG behind 20 A.
func TestALargerConductorIsARemedyBehindABreakerThatCarriesTheLoad(t *testing.T) {
	f := tent(t, `breaker = "15 A"`, `breaker = "20 A"`)
	assert.Contains(t, f["conductor-ampacity"].Remedy, "move space-heater to another circuit, which frees 7.81 A")
	assert.Contains(t, f["conductor-ampacity"].Remedy, "a larger conductor behind the same breaker (12 AWG copper carries 20 A")
	assert.Contains(t, f["small-conductor"].Remedy, "until then use nothing on it")
}

// What nobody knows is not to be guessed from what is easily seen.
func TestFactsAreFoundOutByWhatProvesThem(t *testing.T) {
	f := tent(t, "gfci = false\n", "", "conductor = \"14 AWG copper NM-B\"\n", "")
	assert.Contains(t, f["ground-fault-lighting"].Remedy, "a test button alone is no proof")
	assert.Contains(t, f["device-protects-conductor"].Remedy, "put nothing more on it")
	assert.NotContains(t, f["device-protects-conductor"].Remedy, "give `conductor`")
}

// Luminaires and small plug-in loads are not sent to 240 V in a dwelling.
func TestADwellingIsNotOfferedAVoltageThatItMayNotHave(t *testing.T) {
	lamp := []string{`power = "470 W"`, `power = "1600 W"`, "voltage = \"120 V\"\nplug", "voltage = \"120-277 V\"\nplug"}
	home := tent(t, lamp...)
	assert.NotContains(t, home["one-plug-load"].Remedy, "supply it at")
	trade := tent(t, append(lamp, `"dwelling"`, `"commercial"`)...)
	assert.Contains(t, trade["one-plug-load"].Remedy, "supply it at 240 V")
}

// A feeder's drop is cured by the size that is named and by none below it; where its
// breaker is not known, none is named.
func TestADropOfAFeederNamesTheNextConductorThatHolds(t *testing.T) {
	p := defaultProfile(t)
	text, ok := read(t, p, "voltage-drop-feeder", "broken.toml")
	require.True(t, ok)
	drop := func(from, to string) []codes.Finding {
		require.Contains(t, text, from)
		_, findings := judged(t, "broken.toml", strings.Replace(text, from, to, 1), p)
		return of("voltage-drop-feeder", findings)
	}
	const was = `conductor = "4 AWG copper THHN", spaces`
	found := drop(was, was)
	require.Len(t, found, 1)
	assert.Contains(t, found[0].Remedy, "a larger conductor (2 AWG keeps the limit)")
	assert.Empty(t, drop(was, `conductor = "2 AWG copper THHN", spaces`))
	assert.Len(t, drop(was, `conductor = "3 AWG copper THHN", spaces`), 1)
	found = drop(`breaker = "60 A", `, "")
	require.Len(t, found, 1)
	assert.NotContains(t, found[0].Remedy, "AWG")
}
