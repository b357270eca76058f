/** What a browser may have for making videos, the most widely played first. */
const CODERS = ['avc1.640034', 'vp09.00.51.08', 'vp8', 'av01.0.13M.08'];

/** Whether it can make a video of that size; cheap, so that what cannot be done is not offered. */
export async function canCode(size: {
  readonly width: number;
  readonly height: number;
}): Promise<boolean> {
  // Missing in an older browser, and where the page does not come from this machine or by https.
  if (typeof VideoEncoder === 'undefined') return false;
  for (const codec of CODERS) {
    const { supported } = await VideoEncoder.isConfigSupported({ codec, ...size }).catch(() => ({
      supported: false,
    }));
    if (supported === true) return true;
  }
  return false;
}
