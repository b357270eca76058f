import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';

/** From a page that needs the sheet of a build to that sheet. */
export function ToSheet({ buildId, children }: { buildId: string; children: string }) {
  return (
    <Button
      renderRoot={(props) => (
        <Link to="/builds/$id/sheet/{-$section}" params={{ id: buildId }} {...props} />
      )}
    >
      {children}
    </Button>
  );
}
