#include "config.h"

#include "ui/proposer.h"

#include "drawing/panels.h"
#include "ui/thumbnails.h"

#define LOOK_MS 80                 /* how often the bar follows the worker */
#define THIN_MARK_PX 0.5           /* seams are still to be seen, the cloth comes first */
#define PARTS 10000.0              /* progress is handed over as a whole number */

/* --- what was asked, shared between threads --- */

typedef struct
{
  OddProposalOptions options;
  GArray *ids[3];                  /* OddId: what the options lend */
  OddShare *shares;
} Asked;

static const OddId *
keep_ids (GArray     **kept,
          const OddId *ids,
          guint        n)
{
  *kept = g_array_new (FALSE, FALSE, sizeof (OddId));
  g_array_append_vals (*kept, ids, n);
  return ids != NULL ? (const OddId *) (*kept)->data : NULL;
}

static Asked *
asked_new (const OddProposalOptions *options)
{
  Asked *asked = g_atomic_rc_box_new0 (Asked);

  asked->options = *options;
  asked->options.scrap_ids = keep_ids (&asked->ids[0], options->scrap_ids, options->n_scrap_ids);
  asked->options.panel_ids = keep_ids (&asked->ids[1], options->panel_ids, options->n_panel_ids);
  asked->options.part_ids = keep_ids (&asked->ids[2], options->part_ids, options->n_part_ids);
  asked->shares = g_memdup2 (options->shares, options->n_shares * sizeof (OddShare));
  asked->options.shares = asked->shares;
  return asked;
}

static void
clear_asked (gpointer data)
{
  Asked *asked = data;

  for (guint i = 0; i < G_N_ELEMENTS (asked->ids); i++)
    g_array_unref (asked->ids[i]);
  g_free (asked->shares);
}

static void
asked_unref (Asked *asked)
{
  g_atomic_rc_box_release_full (asked, clear_asked);
}

/* --- what came out --- */

struct _OddProposed
{
  GObject parent_instance;
  OddProposal *proposal;
  Asked *asked;
  OddPanelWork work;
  GdkTexture *picture;
};

G_DEFINE_FINAL_TYPE (OddProposed, odd_proposed, G_TYPE_OBJECT)

static void
odd_proposed_finalize (GObject *object)
{
  OddProposed *self = ODD_PROPOSED (object);

  g_clear_pointer (&self->proposal, odd_proposal_free);
  g_clear_pointer (&self->asked, asked_unref);
  g_clear_object (&self->picture);
  G_OBJECT_CLASS (odd_proposed_parent_class)->finalize (object);
}

static void
odd_proposed_class_init (OddProposedClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = odd_proposed_finalize;
}

static void
odd_proposed_init (OddProposed *self)
{
}

const OddProposal *odd_proposed_get_proposal (OddProposed *self) { return self->proposal; }
const OddProposalOptions *odd_proposed_get_options (OddProposed *self) { return &self->asked->options; }
const OddPanelWork *odd_proposed_get_work (OddProposed *self) { return &self->work; }
GdkTexture *odd_proposed_get_picture (OddProposed *self) { return self->picture; }

/* --- the worker --- */

struct _OddProposer
{
  GObject parent_instance;
  OddSwatches *swatches;
  GCancellable *cancellable;       /* of what runs, or NULL */
  guint look_id;
  guint n_done, n_wanted;
  double progress;
};

G_DEFINE_FINAL_TYPE (OddProposer, odd_proposer, G_TYPE_OBJECT)

enum { PROP_0, PROP_RUNNING, PROP_PROGRESS, N_PROPS };
static GParamSpec *props[N_PROPS];
enum { PROPOSED, BETTERED, FAILED, N_SIGNALS };
static guint signals[N_SIGNALS];

typedef struct
{
  OddJob *job;
  OddSwatches *swatches;
  Asked *asked;
  OddProposed *better;             /* this one is to be made better; NULL: a new one */
  GTask *task;                     /* not ours: it holds us */
  int scale_factor;
  int done;                        /* atomic; of PARTS */
} Request;

static Request *
request_new (OddProposer              *self,
             OddJob                   *job,
             const OddProposalOptions *options,
             int                       scale_factor)
{
  Request *request = g_new0 (Request, 1);

  request->job = odd_job_ref (job);
  request->swatches = odd_swatches_ref (self->swatches);
  request->asked = asked_new (options);
  request->scale_factor = scale_factor;
  return request;
}

static void
request_free (Request *request)
{
  odd_job_unref (request->job);
  odd_swatches_unref (request->swatches);
  asked_unref (request->asked);
  g_clear_object (&request->better);
  g_free (request);
}

static void
progress_cb (double   done,
             gpointer data)
{
  g_atomic_int_set (&((Request *) data)->done, (int) (done * PARTS));
}

/* Takes @proposal. */
static OddProposed *
proposed_new (Request     *request,
              OddProposal *proposal)
{
  OddProposed *proposed = g_object_new (ODD_TYPE_PROPOSED, NULL);
  cairo_surface_t *surface = odd_panels_render (proposal->job, request->swatches, (const OddId *) proposal->panels->data, proposal->panels->len,
                                                ODD_PROPOSED_WIDTH_PX * request->scale_factor, ODD_PROPOSED_HEIGHT_PX * request->scale_factor,
                                                THIN_MARK_PX * request->scale_factor);

  proposed->proposal = proposal;
  proposed->work = odd_job_measure_panel_work (proposal->job, (const OddId *) proposal->panels->data, proposal->panels->len);
  proposed->asked = g_atomic_rc_box_acquire (request->asked);
  proposed->picture = odd_texture_new_for_surface (surface);
  return proposed;
}

typedef struct { GTask *task; OddProposed *proposed; } Told;

static void
told_free (gpointer data)
{
  Told *told = data;

  g_object_unref (told->task);
  g_object_unref (told->proposed);
  g_free (told);
}

static gboolean
told_cb (gpointer data)
{
  Told *told = data;
  OddProposer *self = g_task_get_source_object (told->task);

  if (self->cancellable != NULL && self->cancellable == g_task_get_cancellable (told->task))
    g_signal_emit (self, signals[BETTERED], 0, told->proposed);
  return G_SOURCE_REMOVE;
}

static OddProposal *
proposal_copy (const OddProposal *proposal)
{
  OddProposal *copy = g_memdup2 (proposal, sizeof *proposal);

  odd_job_ref (copy->job);
  g_array_ref (copy->panels);
  if (copy->parts != NULL)
    g_array_ref (copy->parts);
  copy->missing = g_strdup (proposal->missing);
  copy->remark = g_strdup (proposal->remark);
  return copy;
}

static void
better_cb (double       done,
           OddProposal *so_far,
           gpointer     data)
{
  Request *request = data;
  Told *told;

  progress_cb (done, request);
  if (so_far == NULL)
    return;
  told = g_new (Told, 1);
  told->task = g_object_ref (request->task);
  told->proposed = proposed_new (request, proposal_copy (so_far));
  g_idle_add_full (G_PRIORITY_DEFAULT, told_cb, told, told_free);
}

static OddProposal *
make_better (Request      *request,
             GCancellable *cancellable,
             GError      **error)
{
  const OddProposal *was = request->better->proposal;

  return odd_improve (was->job, (const OddId *) was->panels->data, was->panels->len, &request->asked->options, better_cb, request, cancellable, error);
}

static void
propose_in_thread (GTask        *task,
                   gpointer      source,
                   gpointer      data,
                   GCancellable *cancellable)
{
  Request *request = data;
  GError *error = NULL;
  OddProposal *proposal = request->better != NULL ? make_better (request, cancellable, &error)
                                                  : odd_propose (request->job, &request->asked->options, progress_cb, request, cancellable, &error);

  if (proposal != NULL)
    g_task_return_pointer (task, proposed_new (request, proposal), g_object_unref);
  else
    g_task_return_error (task, error);
}

static void
set_progress (OddProposer *self,
              double       progress)
{
  if (progress == self->progress)
    return;
  self->progress = progress;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_PROGRESS]);
}

static void
stop (OddProposer *self)
{
  if (self->cancellable == NULL)
    return;
  g_clear_object (&self->cancellable);
  g_clear_handle_id (&self->look_id, g_source_remove);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_RUNNING]);
}

static void start (OddProposer *self, Request *request);

static void
proposed_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      data)
{
  OddProposer *self = ODD_PROPOSER (source);
  Request *request = g_task_get_task_data (G_TASK (result));
  g_autoptr(GError) error = NULL;
  g_autoptr(OddProposed) proposed = g_task_propagate_pointer (G_TASK (result), &error);

  if (self->cancellable == NULL || self->cancellable != g_task_get_cancellable (G_TASK (result)))
    return;
  if (proposed == NULL)
    {
      stop (self);
      g_signal_emit (self, signals[FAILED], 0, error->message);
      return;
    }
  self->n_done++;
  set_progress (self, (double) self->n_done / self->n_wanted);
  if (request->better != NULL)
    {
      stop (self);
      g_signal_emit (self, signals[BETTERED], 0, proposed);
      return;
    }
  if (self->n_done < self->n_wanted)
    {
      OddProposalOptions options = request->asked->options;

      options.seed++;
      start (self, request_new (self, request->job, &options, request->scale_factor));
    }
  else
    stop (self);
  g_signal_emit (self, signals[PROPOSED], 0, proposed);
}

static gboolean
look_cb (gpointer data)
{
  GTask *task = data;
  OddProposer *self = g_task_get_source_object (task);
  Request *request = g_task_get_task_data (task);

  set_progress (self, (self->n_done + g_atomic_int_get (&request->done) / PARTS) / self->n_wanted);
  return G_SOURCE_CONTINUE;
}

/* Takes @request. */
static void
start (OddProposer *self,
       Request     *request)
{
  g_autoptr(GTask) task = g_task_new (self, self->cancellable, proposed_cb, NULL);

  request->task = task;
  g_task_set_task_data (task, request, (GDestroyNotify) request_free);
  g_clear_handle_id (&self->look_id, g_source_remove);
  self->look_id = g_timeout_add_full (G_PRIORITY_DEFAULT, LOOK_MS, look_cb, g_object_ref (task), g_object_unref);
  g_task_run_in_thread (task, propose_in_thread);
}

/* Takes @request. */
static void
begin (OddProposer *self,
       Request     *request,
       guint        n)
{
  self->cancellable = g_cancellable_new ();
  self->n_done = 0;
  self->n_wanted = n;
  set_progress (self, 0.0);
  start (self, request);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_RUNNING]);
}

void
odd_proposer_run (OddProposer              *self,
                  OddJob                   *job,
                  const OddProposalOptions *options,
                  guint                     n,
                  int                       scale_factor)
{
  g_return_if_fail (ODD_IS_PROPOSER (self) && job != NULL && options != NULL && n > 0 && scale_factor > 0);

  odd_proposer_cancel (self);
  begin (self, request_new (self, job, options, scale_factor), n);
}

void
odd_proposer_better (OddProposer *self,
                     OddProposed *proposed,
                     double       seconds,
                     int          scale_factor)
{
  OddProposalOptions options;
  Request *request;

  g_return_if_fail (ODD_IS_PROPOSER (self) && ODD_IS_PROPOSED (proposed) && seconds > 0.0 && scale_factor > 0);

  odd_proposer_cancel (self);
  options = proposed->asked->options;
  options.seconds = seconds;
  if (proposed->proposal->parts != NULL)
    {
      options.part_ids = (const OddId *) proposed->proposal->parts->data;
      options.n_part_ids = proposed->proposal->parts->len;
    }
  request = request_new (self, proposed->proposal->job, &options, scale_factor);
  request->better = g_object_ref (proposed);
  begin (self, request, 1);
}

void
odd_proposer_cancel (OddProposer *self)
{
  g_return_if_fail (ODD_IS_PROPOSER (self));

  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  stop (self);
}

gboolean
odd_proposer_is_running (OddProposer *self)
{
  g_return_val_if_fail (ODD_IS_PROPOSER (self), FALSE);

  return self->cancellable != NULL;
}

static void
odd_proposer_get_property (GObject    *object,
                           guint       id,
                           GValue     *value,
                           GParamSpec *pspec)
{
  OddProposer *self = ODD_PROPOSER (object);

  switch (id)
    {
    case PROP_RUNNING: g_value_set_boolean (value, self->cancellable != NULL); break;
    case PROP_PROGRESS: g_value_set_double (value, self->progress); break;
    default: G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
odd_proposer_dispose (GObject *object)
{
  odd_proposer_cancel (ODD_PROPOSER (object));
  G_OBJECT_CLASS (odd_proposer_parent_class)->dispose (object);
}

static void
odd_proposer_finalize (GObject *object)
{
  g_clear_pointer (&ODD_PROPOSER (object)->swatches, odd_swatches_unref);
  G_OBJECT_CLASS (odd_proposer_parent_class)->finalize (object);
}

static void
odd_proposer_class_init (OddProposerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = odd_proposer_get_property;
  object_class->dispose = odd_proposer_dispose;
  object_class->finalize = odd_proposer_finalize;
  props[PROP_RUNNING] = g_param_spec_boolean ("running", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_PROGRESS] = g_param_spec_double ("progress", NULL, NULL, 0.0, 1.0, 0.0, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[PROPOSED] = g_signal_new ("proposed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, ODD_TYPE_PROPOSED);
  signals[BETTERED] = g_signal_new ("bettered", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, ODD_TYPE_PROPOSED);
  signals[FAILED] = g_signal_new ("failed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
odd_proposer_init (OddProposer *self)
{
}

OddProposer *
odd_proposer_new (OddSwatches *swatches)
{
  OddProposer *self = g_object_new (ODD_TYPE_PROPOSER, NULL);

  self->swatches = odd_swatches_ref (swatches);
  return self;
}
