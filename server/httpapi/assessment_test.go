package httpapi

import (
	"context"
	"net/http"
	"testing"

	"haulm/server/household"
)

func TestAssessmentsDoNotPileUp(t *testing.T) {
	app := shellApp(t, nil)
	app.Household = householdForTest(t)
	app.Journal = app.Household.Journal
	_, token, err := app.Household.Seat(context.Background(), "home", household.Viewer, "", household.Names{Device: "phone", Member: "Ben"})
	if err != nil {
		t.Fatal(err)
	}
	assess := func() *http.Response {
		answer, _ := ask(t, app, http.MethodGet, "/api/v1/gardens/home/assessment", "Authorization", "Bearer "+token)
		return answer
	}
	for range assessmentsWaiting {
		app.waiting <- struct{}{}
	}
	if busy := assess(); busy.StatusCode != http.StatusServiceUnavailable || busy.Header.Get("Retry-After") == "" {
		t.Errorf("one more than may wait: %d, %v", busy.StatusCode, busy.Header)
	}
	<-app.waiting
	for range 2 { // each gives its place back
		if free := assess(); free.StatusCode != http.StatusOK {
			t.Errorf("with a place free: %d", free.StatusCode)
		}
	}
}
