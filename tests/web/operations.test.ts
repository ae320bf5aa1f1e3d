import { expect, it } from 'vitest';
import { type Description, operationIn } from '../../web/src/door/operations';

const api: Description = {
  paths: {
    '/jobs': { get: { operationId: 'jobs' }, post: { operationId: 'open_job', 'x-signable': true } },
    '/jobs/{job_id}': { get: { operationId: 'job' }, put: { operationId: 'change_job', 'x-signable': true } },
    '/jobs/search': { get: { operationId: 'search_jobs' } },
    '/jobs/{job_id}/seal': { post: { operationId: 'seal_job', 'x-signable': true } },
  },
};

it('an operation is found by its method and path, and by its own path before one with names in it', () => {
  expect(operationIn(api, { method: 'post', path: '/jobs' })?.operationId).toBe('open_job');
  expect(operationIn(api, { method: 'put', path: '/jobs/12' })).toEqual({
    operationId: 'change_job',
    'x-signable': true,
  });
  expect(operationIn(api, { method: 'post', path: '/jobs/12/seal' })?.operationId).toBe('seal_job');
  expect(operationIn(api, { method: 'get', path: '/jobs/search' })?.operationId).toBe('search_jobs');
  expect(operationIn(api, { method: 'delete', path: '/jobs/12' })).toBeNull();
  expect(operationIn(api, { method: 'get', path: '/lathes' })).toBeNull();
});
