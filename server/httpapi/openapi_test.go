package httpapi

import (
	"context"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
)

func contains(text, part string) bool { return strings.Contains(text, part) }

// served lists "METHOD /path" of every route that Fiber has with a handler of
// the table's, as openapi.json writes paths.
func served(app *App) map[string]bool {
	found := map[string]bool{}
	for _, r := range app.fiber.GetRoutes(true) {
		path := regexp.MustCompile(`:(\w+)`).ReplaceAllString(r.Path, "{$1}")
		found[r.Method+" "+path] = true
	}
	return found
}

func TestDescriptionAndRoutesAgreeBothWays(t *testing.T) {
	app := shellApp(t, someFiles())
	doc, err := openapi3.NewLoader().LoadFromData(app.description)
	if err != nil {
		t.Fatal(err)
	}
	if err := doc.Validate(context.Background()); err != nil {
		t.Fatalf("openapi.json is not sound: %v", err)
	}
	routes, described := served(app), map[string]bool{}
	for path, item := range doc.Paths.Map() {
		for method, operation := range item.Operations() {
			described[method+" "+path] = true
			if operation.Summary == "" || operation.OperationID == "" || operation.Responses.Default() == nil {
				t.Errorf("%s %s is described in part only", method, path)
			}
		}
	}
	for route := range routes {
		if !described[route] {
			t.Errorf("%s is served and not described", route)
		}
	}
	for route := range described {
		if !routes[route] {
			t.Errorf("%s is described and not served", route)
		}
	}
	if len(described) != len(app.routes()) {
		t.Errorf("%d described, %d in the table", len(described), len(app.routes()))
	}
}

func TestDescriptionTellsWhatNeedsADevice(t *testing.T) {
	app := shellApp(t, someFiles())
	doc, err := openapi3.NewLoader().LoadFromData(app.description)
	if err != nil {
		t.Fatal(err)
	}
	for path, item := range doc.Paths.Map() {
		for method, operation := range item.Operations() {
			needs := strings.Contains(path, "{garden}") || path == "/api/v1/me" || path == "/api/v1/logout"
			if told := operation.Security != nil; told != needs {
				t.Errorf("%s %s: security told %v, needed %v", method, path, told, needs)
			}
		}
	}
}

func TestUnknownMethodOfAKnownAddress(t *testing.T) {
	app := shellApp(t, someFiles())
	answer, body := ask(t, app, http.MethodPut, "/api/v1/me")
	if answer.StatusCode != http.StatusNotFound || !contains(body, "no_such_address") {
		t.Errorf("%d %s", answer.StatusCode, body)
	}
}

func TestUnansweredMethodIsNotThePage(t *testing.T) {
	app := shellApp(t, someFiles())
	if answer, _ := ask(t, app, http.MethodHead, "/readyz"); answer.StatusCode != http.StatusNotFound {
		t.Errorf("HEAD /readyz: %d, as if the server were ready", answer.StatusCode)
	}
}
