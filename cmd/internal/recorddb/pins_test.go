package recorddb

import (
	"encoding/json"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// goTool runs the go command and gives what it printed.
func goTool(t *testing.T, args ...string) string {
	t.Helper()
	out, err := exec.CommandContext(t.Context(), "go", args...).Output()
	require.NoError(t, err, "go %s", strings.Join(args, " "))
	return strings.TrimSpace(string(out))
}

// The driver is C translated to Go, and works only with the very version of its
// C library that it was translated for.
func TestTheDriversLibraryIsTheOneItWasMadeFor(t *testing.T) {
	var made struct {
		Require []struct{ Path, Version string }
	}
	modfile := goTool(t, "list", "-m", "-f", "{{.GoMod}}", "modernc.org/sqlite")
	require.NoError(t, json.Unmarshal([]byte(goTool(t, "mod", "edit", "-json", modfile)), &made))
	want := ""
	for _, r := range made.Require {
		if r.Path == "modernc.org/libc" {
			want = r.Version
		}
	}
	require.NotEmpty(t, want)
	require.Equal(t, want, goTool(t, "list", "-m", "-f", "{{.Version}}", "modernc.org/libc"))
}
