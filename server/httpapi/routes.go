package httpapi

import "github.com/gofiber/fiber/v2"

// A route is one line of the table below: what is called, by whom, who answers,
// and what openapi.json says about it.
type route struct {
	method string
	path   string
	access access
	handle fiber.Handler
	about  operation
}

const (
	get    = fiber.MethodGet
	head   = fiber.MethodHead
	post   = fiber.MethodPost
	put    = fiber.MethodPut
	patch  = fiber.MethodPatch
	remove = fiber.MethodDelete

	ofGarden = "/api/v1/gardens/:garden"
	ofMedium = ofGarden + "/media/:sha256"
)

// routes is every route there is. Whatever is not here is a file of the phone's
// app, or its page.
func (a *App) routes() []route {
	return []route{
		{get, "/healthz", anyone, a.healthz, aboutHealthz()},
		{get, "/readyz", anyone, a.readyz, aboutReadyz()},
		{get, "/metrics", anyone, a.serveMetrics, aboutMetrics()},
		{get, "/api/v1/openapi.json", anyone, a.serveDescription, aboutDescription()},

		{post, "/api/v1/join", anyone, a.join, aboutJoin()},
		{post, "/api/v1/demo", anyone, a.openDemo, aboutDemo()},
		{post, "/api/v1/logout", device, a.logout, aboutLogout()},
		{get, "/api/v1/me", device, a.me, aboutMe()},

		{post, ofGarden + "/invites", keeper, a.invite, aboutInvite()},
		{get, ofGarden + "/members", member, a.members, aboutMembers()},
		{remove, ofGarden + "/members/:member", keeper, a.removeMember, aboutRemoveMember()},
		{get, ofGarden + "/devices", member, a.devices, aboutDevices()},
		{patch, ofGarden + "/device", member, a.rename, aboutRename()},
		{remove, ofGarden + "/devices/:device", member, a.revoke, aboutRevoke()},

		{post, ofGarden + "/sync", member, a.sync, aboutSync()},
		{get, ofGarden + "/live", member, a.live, aboutLive()},
		{get, ofGarden + "/sums", member, a.sums, aboutSums()},
		{get, ofGarden + "/sums/:bucket", member, a.bucket, aboutBucket()},
		{get, ofGarden + "/assessment", member, a.assessment, aboutAssessment()},
		{post, ofGarden + "/import", member, a.importSaved, aboutImport()},

		{head, ofMedium, member, a.mediaOffset, aboutMediaOffset()},
		{patch, ofMedium, member, a.mediaAppend, aboutMediaAppend()},
		{get, ofMedium, member, a.mediaSend, aboutMediaSend()},
		{put, ofMedium + "/preview/:side", member, a.mediaPreview, aboutMediaPreview()},
	}
}
